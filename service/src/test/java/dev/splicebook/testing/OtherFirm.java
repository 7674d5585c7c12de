package dev.splicebook.testing;

import java.nio.charset.StandardCharsets;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A firm beside the first one, to see what it must not see. */
public record OtherFirm(UUID id, String key) {

    public static OtherFirm open(JdbcClient rows) {
        OtherFirm firm = new OtherFirm(UUID.randomUUID(), "key-" + UUID.randomUUID());
        UUID shop = UUID.randomUUID();
        rows.sql("insert into firms (id, name) values (:firm, 'Another firm')")
                .param("firm", firm.id())
                .update();
        rows.sql("insert into shops (id, owner_firm, name) values (:shop, :firm, 'Its shop')")
                .param("shop", shop)
                .param("firm", firm.id())
                .update();
        rows.sql("insert into api_keys (id, owner_firm, shop, name, sha256)"
                        + " values (gen_random_uuid(), :firm, :shop, 'its key', sha256(:key))")
                .param("firm", firm.id())
                .param("shop", shop)
                .param("key", firm.key().getBytes(StandardCharsets.UTF_8))
                .update();
        return firm;
    }
}
