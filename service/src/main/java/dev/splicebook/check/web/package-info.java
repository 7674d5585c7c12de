/** Checks and rule pages over HTTP. */
@NullMarked
package dev.splicebook.check.web;

import org.jspecify.annotations.NullMarked;
