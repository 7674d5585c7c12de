/** The search behind the pairing: what wants something, what could give it, at what cost, and the best of all together. */
@NullMarked
package dev.splicebook.hookup.pair;

import org.jspecify.annotations.NullMarked;
