/** The catalogue of devices in immutable revisions. */
@ApplicationModule(allowedDependencies = {"web", "guard", "function", "hookup", "vehicle"})
@NullMarked
package dev.splicebook.device;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
