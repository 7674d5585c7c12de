/** Physics and tables of the trade as static pure functions over records, each with its source. */
@NullMarked
package dev.splicebook.electrics;

import org.jspecify.annotations.NullMarked;
