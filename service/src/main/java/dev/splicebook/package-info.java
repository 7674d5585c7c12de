/** Splicebook: what shops know of vehicle wiring, and the check of a hookup before anyone cuts a wire. */
@NullMarked
package dev.splicebook;

import org.jspecify.annotations.NullMarked;
