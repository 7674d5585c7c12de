/** What integration tests share: one running service, its database, and calls to it. */
@NullMarked
package dev.splicebook.testing;

import org.jspecify.annotations.NullMarked;
