package dev.splicebook.device;

import java.util.List;
import java.util.UUID;
import org.springframework.data.jpa.repository.Modifying;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface Devices extends Repository<CatalogueDevice, UUID> {

    /** Devices of a code that a firm may see: its own first, then the oldest shared one. */
    @Query("select d from CatalogueDevice d where d.code = :code and (d.ownerFirm = :firm or d.shared)"
            + " order by case when d.ownerFirm = :firm then 0 else 1 end, d.createdAt, d.id")
    List<CatalogueDevice> listVisible(String code, UUID firm);

    /** Moves on to the next revision; 0 if another request did so first. */
    @Modifying
    @Query("update CatalogueDevice d set d.latestRevision = :revision + 1"
            + " where d.id = :id and d.latestRevision = :revision")
    int advanceFrom(UUID id, int revision);

    boolean existsByOwnerFirmAndCode(UUID ownerFirm, String code);
}
