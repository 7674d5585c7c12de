/** Loads the invented demo book into an empty database of the demo. */
@ApplicationModule(
        allowedDependencies = {
            "web",
            "guard",
            "function",
            "electrics",
            "hookup",
            "vehicle",
            "device",
            "shop",
            "database"
        })
@NullMarked
package dev.splicebook.demo;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
