/** A client of the Splicebook service. */
@NullMarked
package dev.splicebook.client;

import org.jspecify.annotations.NullMarked;
