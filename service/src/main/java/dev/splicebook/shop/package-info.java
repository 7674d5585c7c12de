/** Firms, their shops and the shops' keys; makes the caller of a request from its key. */
@ApplicationModule(allowedDependencies = {"web", "database"})
@NullMarked
package dev.splicebook.shop;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
