/** The rules, one file each; they are discovered, so there is no list of them. */
@NullMarked
package dev.splicebook.hookup.rule;

import org.jspecify.annotations.NullMarked;
