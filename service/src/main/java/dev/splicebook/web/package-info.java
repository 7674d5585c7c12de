/** What every endpoint shares: strict JSON, problem details, paging, conditional requests and the written API. */
@NullMarked
package dev.splicebook.web;

import org.jspecify.annotations.NullMarked;
