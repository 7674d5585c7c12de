/** Stored hookups in immutable revisions, each with its report, and the waivers of their findings. */
@ApplicationModule(allowedDependencies = {"web", "guard", "hookup", "check"})
@NullMarked
package dev.splicebook.job;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
