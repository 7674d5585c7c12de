package dev.splicebook.shop;

import dev.splicebook.web.Caller;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Who may call: finds the caller that a key stands for, and opens the first firm. */
@Service
public class Access {

    private static final Logger log = LoggerFactory.getLogger(Access.class);

    private final Firms firms;
    private final Shops shops;
    private final ApiKeys keys;
    private final boolean demo;

    Access(Firms firms, Shops shops, ApiKeys keys, ObjectProvider<DemoKey> demoKey) {
        this.firms = firms;
        this.shops = shops;
        this.keys = keys;
        this.demo = demoKey.getIfAvailable() != null;
    }

    /**
     * The caller that a key stands for; empty if the key is unknown or revoked. The demo key stands for nobody outside
     * the demo, even if its row came along with a copied database.
     */
    @Transactional(readOnly = true)
    public Optional<Caller> findCaller(String key) {
        if (!demo && DemoKey.VALUE.equals(key)) {
            return Optional.empty();
        }
        KeyHash hash = KeyHash.of(key);
        return keys.findBySha256(hash.bytes())
                .filter(found -> found.opensFor(hash))
                .map(ApiKey::caller);
    }

    /** The caller of the oldest key: whoever set this service up. Empty while there is no key. */
    @Transactional(readOnly = true)
    public Optional<Caller> findFirstCaller() {
        return keys.findFirstByOrderByCreatedAtAscIdAsc().map(ApiKey::caller);
    }

    /** Opens a firm with one shop and one key, unless there is a key already; several instances may try at once. */
    @Transactional
    void openFirst(String firmName, String shopName, String key) {
        keys.lockFirstKey();
        if (keys.findFirstByOrderByCreatedAtAscIdAsc().isPresent()) {
            return;
        }
        Instant now = Instant.now();
        Firm firm = firms.save(new Firm(UUID.randomUUID(), firmName, now));
        Shop shop = shops.save(new Shop(UUID.randomUUID(), firm, shopName, now));
        ApiKey first = keys.save(new ApiKey(UUID.randomUUID(), shop, "first key", KeyHash.of(key), now));
        log.debug("opened {}, {}, {}", firm, shop, first);
    }
}
