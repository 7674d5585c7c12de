package dev.splicebook.vehicle;

import java.util.Optional;
import java.util.UUID;
import org.springframework.data.jpa.repository.Modifying;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface Vehicles extends Repository<MappedVehicle, UUID> {

    @Query("select v from MappedVehicle v where v.id = :id and (v.ownerFirm = :firm or v.shared)")
    Optional<MappedVehicle> findVisible(UUID id, UUID firm);

    /** Moves on to the next revision; 0 if another request did so first. */
    @Modifying
    @Query(
            "update MappedVehicle v set v.latestRevision = :revision + 1 where v.id = :id and v.latestRevision = :revision")
    int advanceFrom(UUID id, int revision);
}
