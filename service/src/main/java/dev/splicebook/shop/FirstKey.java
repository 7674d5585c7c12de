package dev.splicebook.shop;

import dev.splicebook.database.StartRefusedException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.SmartInitializingSingleton;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Component;

/** Lets the first caller in: the demo's firm, or the one whose key the operator gives. */
@Component
class FirstKey implements SmartInitializingSingleton {

    private static final Logger log = LoggerFactory.getLogger(FirstKey.class);

    /** A random key of this length, in letters and digits, is beyond guessing. */
    static final int SHORTEST = 20;

    private final Access access;
    private final boolean demo;
    private final String given;

    FirstKey(Access access, ObjectProvider<DemoKey> demoKey, @Value("${splicebook.first-key:}") String given) {
        this.access = access;
        this.demo = demoKey.getIfAvailable() != null;
        this.given = given.strip();
    }

    @Override
    public void afterSingletonsInstantiated() {
        if (demo) {
            access.openFirst("Bayside Demo", "Bayside Demo, Harbour Street", DemoKey.VALUE);
        } else if (given.isEmpty()) {
            if (access.findFirstCaller().isEmpty()) {
                log.warn("There is no key yet, so nobody can call; SPLICEBOOK_FIRST_KEY makes the first one.");
            }
        } else if (given.length() < SHORTEST) {
            throw new StartRefusedException(
                    "The first key has " + given.length() + " characters, below " + SHORTEST + ".",
                    "Set SPLICEBOOK_FIRST_KEY to at least " + SHORTEST + " random letters and digits.");
        } else {
            access.openFirst("First firm", "First shop", given);
        }
    }
}
