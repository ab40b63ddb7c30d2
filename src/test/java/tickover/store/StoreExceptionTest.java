package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.sql.SQLException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Failures of the world, as the world really reports them, become reasons. */
class StoreExceptionTest {
    @TempDir Path data;

    @Test
    void fullDatabaseIsAFullDisk() throws SQLException {
        Log.open(data).close();
        try (Raw raw = Raw.open(data)) {
            raw.execute("PRAGMA max_page_count = 1");
            SQLException full =
                    assertThrows(
                            SQLException.class,
                            () -> raw.execute("CREATE TABLE big AS SELECT zeroblob(100000) AS b"));
            assertEquals(
                    StoreException.Reason.DISK_FULL, SqliteDialect.failure(full, data).reason());
        }
    }

    @Test
    void fullDeviceIsAFullDisk() {
        Path full = Path.of("/dev/full");
        assumeTrue(Files.exists(full), "no /dev/full here");
        IOException e =
                assertThrows(IOException.class, () -> Files.write(full, new byte[] {1, 2, 3}));
        assertEquals(StoreException.Reason.DISK_FULL, StoreException.of(e, data).reason());
    }

    @Test
    void readOnlyDatabaseIsAQuestionOfPermission() throws SQLException {
        Log.open(data).close();
        try (var c =
                        DriverManager.getConnection(
                                "jdbc:sqlite:file:" + data.resolve("tickover.db") + "?mode=ro");
                var s = c.createStatement()) {
            SQLException e =
                    assertThrows(
                            SQLException.class,
                            () -> s.execute("INSERT INTO vehicle (id, unit) VALUES (1, 'x')"));
            assertEquals(
                    StoreException.Reason.NO_PERMISSION, SqliteDialect.failure(e, data).reason());
        }
    }

    @Test
    void deniedAccessNamesTheFolder() {
        StoreException denied = StoreException.of(new AccessDeniedException("tickover.db"), data);
        assertEquals(StoreException.Reason.NO_PERMISSION, denied.reason());
        assertTrue(denied.getMessage().contains(data.toString()));
    }
}
