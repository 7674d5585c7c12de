/** The book of vehicles over HTTP, and the vocabulary that it is written in. */
@NullMarked
package dev.splicebook.vehicle.web;

import org.jspecify.annotations.NullMarked;
