/** What a wire can be for, as one vocabulary, and the colours that wires wear. */
@NullMarked
package dev.splicebook.function;

import org.jspecify.annotations.NullMarked;
