/** Stored hookups over HTTP. */
@NullMarked
package dev.splicebook.job.web;

import org.jspecify.annotations.NullMarked;
