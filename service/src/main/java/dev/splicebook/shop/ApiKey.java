package dev.splicebook.shop;

import dev.splicebook.web.Caller;
import dev.splicebook.web.FirmId;
import dev.splicebook.web.KeyId;
import dev.splicebook.web.ShopId;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.security.MessageDigest;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** A key with which a shop's programs call; what is kept is its hash, so that the rows open nothing. */
@Entity
@Table(name = "api_keys")
class ApiKey {

    @Id
    private UUID id;

    private UUID ownerFirm;
    private UUID shop;
    private String name;
    private byte[] sha256;
    private Instant createdAt;
    private @Nullable Instant revokedAt;

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected ApiKey() {}

    ApiKey(UUID id, Shop shop, String name, KeyHash hash, Instant createdAt) {
        this.id = id;
        this.ownerFirm = shop.ownerFirm();
        this.shop = shop.id();
        this.name = name;
        this.sha256 = hash.bytes();
        this.createdAt = createdAt;
    }

    /** Whether the hash is this key's, in a time that does not depend on where they differ, and it still opens. */
    boolean opensFor(KeyHash hash) {
        return MessageDigest.isEqual(sha256, hash.bytes()) && revokedAt == null;
    }

    Caller caller() {
        return new Caller(new FirmId(ownerFirm), new ShopId(shop), new KeyId(id));
    }

    @Override
    public String toString() {
        return "key " + id + " (" + name + " of shop " + shop + ", since " + createdAt + ")";
    }
}
