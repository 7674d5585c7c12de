/** Where the rows are: the embedded or given PostgreSQL, its roles, its transactions, and what is answered without it. */
@ApplicationModule(allowedDependencies = "web")
@NullMarked
package dev.splicebook.database;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
