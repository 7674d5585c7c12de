/** What a tradesman would change to mend a hookup, one kind of change a file. */
@NullMarked
package dev.splicebook.hookup.mend;

import org.jspecify.annotations.NullMarked;
