/** Checks over HTTP: resolves references into the pure model, keeps a shop's own rules, and shows the rules' pages. */
@ApplicationModule(allowedDependencies = {"web", "guard", "function", "electrics", "hookup", "vehicle", "device"})
@NullMarked
package dev.splicebook.check;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
