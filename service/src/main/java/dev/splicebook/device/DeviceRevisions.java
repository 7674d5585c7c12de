package dev.splicebook.device;

import java.util.Optional;
import org.springframework.data.repository.Repository;

interface DeviceRevisions extends Repository<DeviceRevision, DeviceRevision.Key> {

    Optional<DeviceRevision> findByKey(DeviceRevision.Key key);
}
