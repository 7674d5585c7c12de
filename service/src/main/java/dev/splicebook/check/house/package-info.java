/** A shop's own rules as expressions: what they say, and their evaluation in bounded time. */
@NullMarked
package dev.splicebook.check.house;

import org.jspecify.annotations.NullMarked;
