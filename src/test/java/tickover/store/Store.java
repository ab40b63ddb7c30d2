package tickover.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import java.util.Map;
import java.util.UUID;

/** The two kinds of place that a log can have, and how to meddle with what lies there. */
public enum Store {
    /** SQLite and a folder of recordings. */
    FOLDER,

    /** PostgreSQL, with the recordings in it. */
    SERVER;

    /**
     * A place where no log is yet.
     *
     * @param dir of a log in a folder its own, else stands for a machine's data folder
     */
    public LogPlace fresh(Path dir) {
        return place(freshAddress(dir), dir);
    }

    /** What to say after {@code --data} to have a place where no log is yet. */
    public String freshAddress(Path dir) {
        return this == FOLDER ? dir.toString() : PostgresServer.get().freshAddress();
    }

    /** The place that an address means. */
    public static LogPlace place(String address, Path home) {
        return LogPlace.of(address, Map.of(), home);
    }

    /** Every file of a visit in a log, and whatever an import left. */
    static List<String> files(LogPlace place) {
        if (place.isFolder()) {
            Path recordings = place.local().resolve(Log.RECORDINGS_FOLDER);
            return Files.exists(recordings) ? withoutFolders(recordings) : List.of();
        }
        try (Raw raw = Raw.open(place);
                var left = Files.exists(place.copies()) ? Files.list(place.copies()) : null) {
            List<String> kept =
                    raw.rows("SELECT DISTINCT visit_id, name FROM recording")
                            .lines()
                            .map(l -> l.replace('|', '/'))
                            .sorted()
                            .toList();
            boolean swept =
                    left == null || left.noneMatch(p -> p.getFileName().toString().startsWith("."));
            return swept ? kept : List.of("an import left something");
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<String> withoutFolders(Path recordings) {
        return Folders.tree(recordings).stream()
                .filter(n -> n.startsWith(".") || !Files.isDirectory(recordings.resolve(n)))
                .toList();
    }

    /** Removes a file of a visit behind the log's back. */
    static void delete(LogPlace place, UUID visit, String name) {
        try {
            if (place.isFolder()) {
                Files.delete(file(place, visit, name));
            } else {
                execute(place, "DELETE FROM recording" + of(visit, name));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Turns over one bit in the middle of a file behind the log's back. */
    static void damage(LogPlace place, UUID visit, String name) {
        try {
            if (place.isFolder()) {
                byte[] bytes = Files.readAllBytes(file(place, visit, name));
                bytes[bytes.length / 2] ^= 1;
                Files.write(file(place, visit, name), bytes);
            } else {
                execute(
                        place,
                        "UPDATE recording SET bytes = set_byte(bytes, length(bytes) / 2,"
                                + " get_byte(bytes, length(bytes) / 2) # 1)"
                                + of(visit, name));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Puts other bytes into a file behind the log's back. */
    static void write(LogPlace place, UUID visit, String name, String text) {
        try {
            if (place.isFolder()) {
                Files.writeString(file(place, visit, name), text);
            } else {
                execute(
                        place,
                        "UPDATE recording SET bytes = '"
                                + text.replace("'", "''").replace("\n", "\\012")
                                + "'"
                                + of(visit, name));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String of(UUID visit, String name) {
        return " WHERE visit_id = '" + visit + "' AND name = '" + name + "'";
    }

    private static Path file(LogPlace place, UUID visit, String name) {
        return place.local().resolve(Log.RECORDINGS_FOLDER).resolve(visit.toString()).resolve(name);
    }

    private static void execute(LogPlace place, String sql) {
        try (Raw raw = Raw.open(place)) {
            raw.execute(sql);
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        }
    }
}
