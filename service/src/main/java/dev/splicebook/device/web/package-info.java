/** The catalogue over HTTP. */
@NullMarked
package dev.splicebook.device.web;

import org.jspecify.annotations.NullMarked;
