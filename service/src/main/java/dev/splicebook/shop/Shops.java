package dev.splicebook.shop;

import java.util.UUID;
import org.springframework.data.repository.Repository;

interface Shops extends Repository<Shop, UUID> {

    Shop save(Shop shop);
}
