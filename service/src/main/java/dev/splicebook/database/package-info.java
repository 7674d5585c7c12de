/** Where the rows are: the embedded or the given PostgreSQL, its roles, and what is answered while it is away. */
@ApplicationModule(allowedDependencies = "web")
@NullMarked
package dev.splicebook.database;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
