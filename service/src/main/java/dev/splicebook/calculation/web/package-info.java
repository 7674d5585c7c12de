/** Calculations and their catalogue over HTTP. */
@NullMarked
package dev.splicebook.calculation.web;

import org.jspecify.annotations.NullMarked;
