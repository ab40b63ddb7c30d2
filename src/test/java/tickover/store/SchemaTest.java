package tickover.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SchemaTest {
    @TempDir Path data;

    private static Schema with(String... more) {
        List<String> scripts = new ArrayList<>(Schema.CURRENT.scripts());
        scripts.addAll(List.of(more));
        return new Schema(scripts);
    }

    private Log open(Schema schema) {
        return Log.open(LogPlace.folder(data), Clock.systemUTC(), schema);
    }

    @Test
    void freshLogHasTheCurrentVersion() throws SQLException {
        Log.open(data).close();
        assertEquals(Schema.CURRENT.version(), Raw.count(data, "PRAGMA user_version"));
        try (Raw raw = Raw.open(data)) {
            assertEquals("wal\n", raw.rows("PRAGMA journal_mode"));
            assertEquals("ok\n", raw.rows("PRAGMA integrity_check"));
        }
    }

    @Test
    void laterScriptsRunOverWhatIsThere() throws SQLException {
        Visit visit = VisitFolder.read(Folders.good(data.resolve("visit")));
        try (Log log = Log.open(data)) {
            log.importVisit(visit);
        }
        Schema later =
                with(
                        "ALTER TABLE visit ADD COLUMN weather TEXT;\n",
                        "-- words\nUPDATE visit\nSET weather = 'rain;'\n;\n");
        try (Log log = open(later)) {
            assertEquals(visit, log.visit(visit.id()).orElseThrow());
        }
        assertEquals(Schema.CURRENT.version() + 2, Raw.count(data, "PRAGMA user_version"));
        try (Raw raw = Raw.open(data)) {
            assertEquals("rain;\n", raw.rows("SELECT weather FROM visit"));
        }
    }

    @Test
    void failingScriptLeavesTheOldVersion() throws SQLException {
        Log.open(data).close();
        Schema broken = with("CREATE TABLE more (id BIGINT);\nCREATE NONSENSE;\n");
        assertThrows(StoreException.class, () -> open(broken));
        assertEquals(Schema.CURRENT.version(), Raw.count(data, "PRAGMA user_version"));
        assertEquals(0, Raw.count(data, "SELECT COUNT(*) FROM sqlite_master WHERE name = 'more'"));
        Log.open(data).close();
    }

    @Test
    void newerLogIsRefusedUntouched() throws IOException {
        open(with("CREATE TABLE more (id BIGINT);\n")).close();
        byte[] before = Files.readAllBytes(data.resolve("tickover.db"));
        StoreException refused = assertThrows(StoreException.class, () -> Log.open(data));
        assertEquals(StoreException.Reason.NEWER_LOG, refused.reason());
        assertTrue(refused.getMessage().endsWith("update Tickover"), refused.getMessage());
        assertArrayEquals(before, Files.readAllBytes(data.resolve("tickover.db")));
    }

    @Test
    void anotherProgramsDatabaseIsRefusedUntouched() throws Exception {
        Path file = data.resolve("tickover.db");
        try (var c = DriverManager.getConnection("jdbc:sqlite:" + file);
                var s = c.createStatement()) {
            s.execute("CREATE TABLE recipes (cake TEXT)");
        }
        byte[] before = Files.readAllBytes(file);
        StoreException refused = assertThrows(StoreException.class, () -> Log.open(data));
        assertEquals(StoreException.Reason.DAMAGED, refused.reason());
        assertTrue(refused.getMessage().contains("another program"), refused.getMessage());
        assertArrayEquals(before, Files.readAllBytes(file));
        assertFalse(Files.exists(data.resolve("tickover.db-wal")));
    }

    @Test
    void fileThatIsNoDatabaseIsRefused() throws IOException {
        Files.writeString(data.resolve("tickover.db"), "shopping list\n".repeat(500));
        StoreException refused = assertThrows(StoreException.class, () -> Log.open(data));
        assertEquals(StoreException.Reason.DAMAGED, refused.reason());
        assertEquals(1, refused.getMessage().lines().count());
    }

    @Test
    void dataFolderThatIsAFileIsRefused() throws IOException {
        Path file = Files.writeString(data.resolve("file"), "");
        StoreException refused = assertThrows(StoreException.class, () -> Log.open(file));
        assertTrue(refused.getMessage().contains(file.toString()));
    }

    @Test
    void writerThatWaitsTooLongSaysSo() throws SQLException {
        Visit visit = VisitFolder.read(Folders.good(data.resolve("visit")));
        try (Log log = Log.open(data);
                Raw other = Raw.open(data)) {
            other.execute("BEGIN IMMEDIATE");
            StoreException refused =
                    assertThrows(StoreException.class, () -> log.importVisit(visit));
            assertEquals(StoreException.Reason.BUSY, refused.reason());
            other.execute("ROLLBACK");
            assertEquals(ImportOutcome.IMPORTED, log.importVisit(visit));
        }
    }
}
