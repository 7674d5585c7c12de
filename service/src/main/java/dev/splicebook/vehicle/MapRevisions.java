package dev.splicebook.vehicle;

import java.util.Optional;
import org.springframework.data.repository.Repository;

interface MapRevisions extends Repository<MapRevision, MapRevision.Key> {

    Optional<MapRevision> findByKey(MapRevision.Key key);
}
