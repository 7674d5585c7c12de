/** Tests of the client, against a service that answers what it is told to. */
@NullMarked
package dev.splicebook.client;

import org.jspecify.annotations.NullMarked;
