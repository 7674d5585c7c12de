/** The model of a hookup, its nets and states, and the check of it. */
@NullMarked
package dev.splicebook.hookup;

import org.jspecify.annotations.NullMarked;
