package tickover.store;

import java.io.IOException;
import java.nio.file.Files;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Optional;

/** Takes a visit folder into the log: its rows and files in one piece. */
final class VisitImport {
    private VisitImport() {}

    static ImportOutcome take(LogFolder log, Visit visit, Instant now) {
        if (log.database().read(c -> isKept(c, visit))) {
            return ImportOutcome.ALREADY_KEPT;
        }
        try (Recordings.Stage stage =
                log.recordings()
                        .stage(
                                visit.files(),
                                file ->
                                        Files.newInputStream(
                                                visit.folder().resolve(file.name())))) {
            return insert(log, visit, stage, now);
        } catch (IOException e) {
            throw StoreException.of(e, log.place().local());
        }
    }

    private static ImportOutcome insert(
            LogFolder log, Visit visit, Recordings.Stage stage, Instant now) throws IOException {
        boolean done = false;
        try {
            VisitRows.Texts texts = VisitRows.Texts.in(stage.dir());
            ImportOutcome outcome =
                    log.database()
                            .write(
                                    c -> stage.send(c, visit.id()),
                                    c -> {
                                        // Another process may have taken it in meanwhile.
                                        if (isKept(c, visit)) {
                                            stage.abandon(c);
                                            return ImportOutcome.ALREADY_KEPT;
                                        }
                                        stage.promote(visit.id());
                                        VisitRows.insert(c, visit, texts, now);
                                        Standings.forget(c, visit.vehicle().unit());
                                        return ImportOutcome.IMPORTED;
                                    });
            done = true;
            return outcome;
        } finally {
            if (!done) {
                stage.undo(visit.id());
            }
        }
    }

    private static boolean isKept(Connection c, Visit visit) throws SQLException {
        Optional<String> kept = VisitRows.content(c, visit.id());
        if (kept.isPresent() && !kept.get().equals(VisitRows.content(visit))) {
            throw new StoreException(
                    StoreException.Reason.OTHER_CONTENT,
                    "visit "
                            + visit.id()
                            + " is in the log already, but with other content; give this one an id"
                            + " of its own in visit.toml, or leave the id out");
        }
        return kept.isPresent();
    }
}
