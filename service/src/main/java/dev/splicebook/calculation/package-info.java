/** The arithmetic of the trade over HTTP: each calculation shows its working, its sources and its cautions. */
@ApplicationModule(allowedDependencies = {"web", "guard", "electrics", "circuit"})
@NullMarked
package dev.splicebook.calculation;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
