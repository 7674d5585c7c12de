/** The electrical reading of a hookup: its nodes, nets, states and signals, on which every rule works. */
@NullMarked
package dev.splicebook.hookup.net;

import org.jspecify.annotations.NullMarked;
