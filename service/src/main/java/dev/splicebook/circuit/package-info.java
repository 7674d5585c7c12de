/** A network of sources, resistances, reactances and loads, and its DC and AC solution, re-checked by Kirchhoff's laws. */
@NullMarked
package dev.splicebook.circuit;

import org.jspecify.annotations.NullMarked;
