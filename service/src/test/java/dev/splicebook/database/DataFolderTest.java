package dev.splicebook.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DataFolderTest {

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path parent;

    @Test
    void isHeldByOneUntilItIsClosed() throws Exception {
        Path path = parent.resolve("data");
        try (DataFolder held = DataFolder.lock(path)) {
            assertThatThrownBy(() -> DataFolder.lock(path))
                    .isInstanceOf(StartRefusedException.class)
                    .hasMessageContaining(held.path().toString());
        }
        try (DataFolder again = DataFolder.lock(path)) {
            assertThat(again.path()).isEqualTo(path);
        }
    }

    @Test
    void keepsItsPassword() throws Exception {
        String first;
        try (DataFolder folder = DataFolder.lock(parent.resolve("data"))) {
            first = folder.password();
            assertThat(first).hasSize(48).isEqualTo(folder.password());
        }
        try (DataFolder folder = DataFolder.lock(parent.resolve("data"))) {
            assertThat(folder.password()).isEqualTo(first);
        }
    }

    @Test
    void refusesAFolderOfOtherThings() throws Exception {
        Path path = Files.createDirectories(parent.resolve("data"));
        Path photo = Files.writeString(path.resolve("photo.jpg"), "photo");
        try (DataFolder folder = DataFolder.lock(path)) {
            assertThatThrownBy(folder::beginMaking)
                    .isInstanceOf(StartRefusedException.class)
                    .hasMessageContaining("not empty");
        }
        assertThat(photo).exists();
    }

    @Test
    void beginsAgainAfterAStartThatWasKilledInTheMiddle() throws Exception {
        Path path = parent.resolve("data");
        try (DataFolder folder = DataFolder.lock(path)) {
            folder.beginMaking();
            Files.createDirectories(path);
            Files.writeString(path.resolve("PG_VERSION"), "18");
        }
        try (DataFolder folder = DataFolder.lock(path)) {
            folder.beginMaking();
            assertThat(path).doesNotExist();

            Files.createDirectories(path);
            Files.writeString(path.resolve("PG_VERSION"), "18");
            folder.endMaking();
            folder.beginMaking();
            assertThat(folder.isMade()).isTrue();
        }
    }

    @Test
    void refusesAParentThatIsAFile() throws Exception {
        Path file = Files.writeString(parent.resolve("file"), "");

        assertThatThrownBy(() -> DataFolder.lock(file.resolve("data"))).isInstanceOf(StartRefusedException.class);
    }
}
