package tickover.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Savepoint;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/**
 * Files of visits in the log's own database, in pieces, so that they come and go in the transaction
 * of their rows. To be analysed they are copied to this machine, see {@link VisitCopies}.
 */
final class DatabaseRecordings implements Recordings {
    /** Small enough for little memory on both sides, big enough for few questions. */
    static final int PIECE_BYTES = 1 << 20;

    private static final String INSERT =
            """
            INSERT INTO recording (visit_id, name, place, bytes) VALUES (?, ?, ?, ?)
            ON CONFLICT DO NOTHING\
            """;

    private static final String FIND_PIECE =
            "SELECT bytes FROM recording WHERE visit_id = ? AND name = ? AND place = ?";

    private static final String FIND =
            "SELECT 1 FROM recording WHERE visit_id = ? AND name = ? LIMIT 1";

    private static final String DELETE = "DELETE FROM recording WHERE visit_id = ? AND name = ?";

    private static final String REMOVED_BUT_THERE =
            """
            SELECT removal.visit_id, removal.name FROM removal
            JOIN recording ON recording.visit_id = removal.visit_id
                AND recording.name = removal.name AND recording.place = 0\
            """;

    private final Database database;
    private final VisitCopies copies;

    DatabaseRecordings(Database database, Path copies) throws IOException {
        this.database = database;
        this.copies = new VisitCopies(copies);
    }

    private static final class SentStage implements Stage {
        private final Stage copied;
        private final List<KeptFile> files;
        private Savepoint unsent;

        /** Files of which pieces were there already: another's who was first, or damaged ones. */
        private final Set<String> unsentNames = new HashSet<>();

        SentStage(Stage copied, List<KeptFile> files) {
            this.copied = copied;
            this.files = files;
        }

        @Override
        public Path dir() {
            return copied.dir();
        }

        /**
         * Sends all pieces. Of two that send the same file at once the second waits for the first,
         * and sends nothing if that one's came in. In the order of the names, so that two which
         * send several do not wait for each other.
         */
        @Override
        public void send(Connection c, UUID visitId) throws SQLException, IOException {
            unsent = c.setSavepoint();
            List<KeptFile> sorted = new ArrayList<>(files);
            sorted.sort(java.util.Comparator.comparing(KeptFile::name));
            for (KeptFile file : sorted) {
                send(c, visitId, file);
            }
        }

        private void send(Connection c, UUID visitId, KeptFile file)
                throws SQLException, IOException {
            try (InputStream in = Files.newInputStream(dir().resolve(file.name()))) {
                int place = 0;
                // A file of no bytes is one piece of none, to be told from one that is not there.
                for (byte[] piece = in.readNBytes(PIECE_BYTES);
                        piece.length > 0 || place == 0;
                        piece = in.readNBytes(PIECE_BYTES)) {
                    if (Row.update(c, INSERT, visitId.toString(), file.name(), place, piece) == 0) {
                        unsentNames.add(file.name());
                        return;
                    }
                    place++;
                }
            }
        }

        @Override
        public void promote(UUID visitId) {
            // They are in the transaction.
        }

        @Override
        public void putBack(Connection c, UUID visitId, List<KeptFile> some)
                throws SQLException, IOException {
            for (KeptFile file : some) {
                if (unsentNames.contains(file.name())) {
                    Row.insert(c, DELETE, visitId.toString(), file.name());
                    send(c, visitId, file);
                }
            }
        }

        @Override
        public void abandon(Connection c) throws SQLException {
            if (unsent != null) {
                c.rollback(unsent);
            }
        }

        @Override
        public void undo(UUID visitId) {
            // The transaction has undone it.
        }

        @Override
        public void close() throws IOException {
            copied.close();
        }
    }

    @Override
    public Stage stage(List<KeptFile> files, FileSource source) throws IOException {
        return new SentStage(copies.stage(files, source), List.copyOf(files));
    }

    @Override
    public boolean holds(UUID visitId, String name) {
        return database.read(c -> Row.first(c, FIND, r -> 1, visitId.toString(), name)).isPresent();
    }

    /** Reads a piece at a time, each in a transaction of its own. */
    private final class Pieces extends InputStream {
        private final UUID visitId;
        private final String name;
        private byte[] piece;
        private int at;
        private int next = 1;

        Pieces(UUID visitId, String name, byte[] first) {
            this.visitId = visitId;
            this.name = name;
            this.piece = first;
        }

        @Override
        public int read() throws IOException {
            byte[] one = new byte[1];
            return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
        }

        @Override
        public int read(byte[] to, int from, int count) {
            if (at == piece.length) {
                // A piece that is not full is the last one.
                piece =
                        piece.length < PIECE_BYTES
                                ? new byte[0]
                                : piece(visitId, name, next++).orElse(new byte[0]);
                at = 0;
                if (piece.length == 0) {
                    return -1;
                }
            }
            int some = Math.min(count, piece.length - at);
            System.arraycopy(piece, at, to, from, some);
            at += some;
            return some;
        }
    }

    private Optional<byte[]> piece(UUID visitId, String name, int place) {
        return database.read(
                c -> Row.first(c, FIND_PIECE, r -> r.getBytes(1), visitId.toString(), name, place));
    }

    @Override
    public InputStream open(UUID visitId, KeptFile file) throws IOException {
        Optional<byte[]> first = piece(visitId, file.name(), 0);
        if (first.isEmpty()) {
            throw new NoSuchFileException(shown(visitId, file.name()));
        }
        return new Pieces(visitId, file.name(), first.get());
    }

    @Override
    public Path folder(UUID visitId, List<KeptFile> wanted) throws IOException {
        return copies.folder(visitId, wanted, file -> open(visitId, file));
    }

    @Override
    public String shown(UUID visitId, String name) {
        return name + " of visit " + visitId + " in the database";
    }

    @Override
    public void remove(Connection c, UUID visitId, Set<String> names) throws SQLException {
        for (String name : names) {
            Row.insert(c, DELETE, visitId.toString(), name);
        }
    }

    @Override
    public Map<UUID, List<String>> removedButThere(Connection c) throws SQLException {
        Map<UUID, List<String>> left = new HashMap<>();
        Row.list(
                c,
                REMOVED_BUT_THERE,
                r ->
                        left.computeIfAbsent(
                                        UUID.fromString(r.getString(1)), v -> new ArrayList<>())
                                .add(r.getString(2)));
        return left;
    }

    @Override
    public Map<String, Set<String>> leftovers(Database looked) {
        // The tables refuse pieces of files that have no row.
        return Map.of();
    }

    @Override
    public void sweep(Database swept) {
        copies.sweep();
    }
}
