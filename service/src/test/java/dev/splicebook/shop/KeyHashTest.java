package dev.splicebook.shop;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class KeyHashTest {

    @Test
    void isTheSha256OfTheKey() {
        // source: FIPS 180-4 example values, one-block message "abc"
        assertThat(KeyHash.of("abc")).hasToString("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    @Test
    void differsForKeysThatDifferInCase() {
        assertThat(KeyHash.of("Key").bytes()).isNotEqualTo(KeyHash.of("key").bytes());
    }
}
