/** What an immutable type's constructor says when it refuses values, so that a reader can name each place. */
@NullMarked
package dev.splicebook.guard;

import org.jspecify.annotations.NullMarked;
