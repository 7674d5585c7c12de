/** What every endpoint shares: strict JSON, problem details, paging, conditional and repeated requests, the written API. */
@ApplicationModule(allowedDependencies = "guard")
@NullMarked
package dev.splicebook.web;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
