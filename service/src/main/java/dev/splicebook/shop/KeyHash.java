package dev.splicebook.shop;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** The SHA-256 of a key. Keys are long and random, so that a slow, salted hash would add nothing but time. */
final class KeyHash {

    private final byte[] bytes;

    private KeyHash(byte[] bytes) {
        this.bytes = bytes;
    }

    static KeyHash of(String key) {
        try {
            return new KeyHash(MessageDigest.getInstance("SHA-256").digest(key.getBytes(StandardCharsets.UTF_8)));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** 32 bytes. */
    byte[] bytes() {
        return bytes.clone();
    }

    @Override
    public String toString() {
        return HexFormat.of().formatHex(bytes);
    }
}
