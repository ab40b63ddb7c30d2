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
                DataFolder.place("/a", Map.of("TICKOVER_DATA", "/b"), "Linux", HOME).local());
        assertEquals(
                Path.of("/b").toAbsolutePath(),
                DataFolder.place("", Map.of("TICKOVER_DATA", "/b"), "Linux", HOME).local());
    }

    @Test
    void linuxFollowsTheDesktopStandardAndIgnoresARelativeFolder() {
        Path usual = Path.of(HOME, ".local", "share", "tickover");
        assertEquals(usual, DataFolder.place("", Map.of(), "Linux", HOME).local());
        assertEquals(
                Path.of("/data/tickover"),
                DataFolder.place("", Map.of("XDG_DATA_HOME", "/data"), "Linux", HOME).local());
        assertEquals(
                usual,
                DataFolder.place("", Map.of("XDG_DATA_HOME", "data"), "Linux", HOME).local());
    }

    @Test
    void otherPlatformsHaveTheirOwnPlaces() {
        assertEquals(
                Path.of("C:/Local", "tickover"),
                DataFolder.place("", Map.of("LOCALAPPDATA", "C:/Local"), "Windows 11", HOME)
                        .local());
        assertEquals(
                Path.of(HOME, "AppData", "Local", "tickover"),
                DataFolder.place("", Map.of(), "Windows 11", HOME).local());
        assertEquals(
                Path.of(HOME, "Library", "Application Support", "tickover"),
                DataFolder.place("", Map.of(), "Mac OS X", HOME).local());
    }
}
