/** The power of a hookup solved: volts, amps and loss in every state, typical and at worst. */
@NullMarked
package dev.splicebook.hookup.power;

import org.jspecify.annotations.NullMarked;
