/** How the book and the catalogue come in and go out in the forms that other programs write: spreadsheets and lines of JSON. */
@ApplicationModule(allowedDependencies = {"web", "guard", "function", "hookup", "vehicle", "device"})
@NullMarked
package dev.splicebook.exchange;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
