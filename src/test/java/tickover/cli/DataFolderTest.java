package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;

class DataFolderTest {
    private static final String HOME = Path.of("/home/pool").toString();

    @Test
    void optionComesBeforeVariable() {
        assertEquals(
                Path.of("/a").toAbsolutePath(),
                DataFolder.choose("/a", Map.of("TICKOVER_DATA", "/b"), "Linux", HOME));
        assertEquals(
                Path.of("/b").toAbsolutePath(),
                DataFolder.choose("", Map.of("TICKOVER_DATA", "/b"), "Linux", HOME));
    }

    @Test
    void linuxFollowsTheDesktopStandardAndIgnoresARelativeFolder() {
        Path usual = Path.of(HOME, ".local", "share", "tickover");
        assertEquals(usual, DataFolder.choose("", Map.of(), "Linux", HOME));
        assertEquals(
                Path.of("/data/tickover"),
                DataFolder.choose("", Map.of("XDG_DATA_HOME", "/data"), "Linux", HOME));
        assertEquals(usual, DataFolder.choose("", Map.of("XDG_DATA_HOME", "data"), "Linux", HOME));
    }

    @Test
    void otherPlatformsHaveTheirOwnPlaces() {
        assertEquals(
                Path.of("C:/Local", "tickover"),
                DataFolder.choose("", Map.of("LOCALAPPDATA", "C:/Local"), "Windows 11", HOME));
        assertEquals(
                Path.of(HOME, "AppData", "Local", "tickover"),
                DataFolder.choose("", Map.of(), "Windows 11", HOME));
        assertEquals(
                Path.of(HOME, "Library", "Application Support", "tickover"),
                DataFolder.choose("", Map.of(), "Mac OS X", HOME));
    }
}
