/** The calculations, one file each. */
@NullMarked
package dev.splicebook.calculation.trade;

import org.jspecify.annotations.NullMarked;
