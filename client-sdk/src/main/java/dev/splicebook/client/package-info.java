/** A client of the Splicebook service; {@link dev.splicebook.client.Splicebook} is where it begins. */
@NullMarked
package dev.splicebook.client;

import org.jspecify.annotations.NullMarked;
