/** Imports and exports over HTTP. */
@NullMarked
package dev.splicebook.exchange.web;

import org.jspecify.annotations.NullMarked;
