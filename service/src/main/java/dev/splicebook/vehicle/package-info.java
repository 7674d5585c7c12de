/** The book of vehicles: function maps in immutable revisions. */
@ApplicationModule(allowedDependencies = {"web", "guard", "function", "hookup"})
@NullMarked
package dev.splicebook.vehicle;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
