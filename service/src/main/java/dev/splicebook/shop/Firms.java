package dev.splicebook.shop;

import java.util.UUID;
import org.springframework.data.repository.Repository;

interface Firms extends Repository<Firm, UUID> {

    Firm save(Firm firm);
}
