package dev.splicebook.shop;

import java.util.Optional;
import java.util.UUID;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface ApiKeys extends Repository<ApiKey, UUID> {

    ApiKey save(ApiKey key);

    Optional<ApiKey> findBySha256(byte[] sha256);

    Optional<ApiKey> findFirstByOrderByCreatedAtAscIdAsc();

    /** Makes those who ask for the same wait for each other until their transactions end, on every instance. */
    @Query(value = "select 1 from (select pg_advisory_xact_lock(5310571001)) as taken", nativeQuery = true)
    int lockFirstKey();
}
