package tickover.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.UUID;

/**
 * A log's database and recordings, opened for work on the log as a whole. Unlike {@link Log#open}
 * it removes nothing, and makes no log where there is none. One thread.
 */
final class LogFolder implements AutoCloseable {
    private final LogPlace place;
    private final Database database;
    private final Recordings recordings;

    private LogFolder(LogPlace place, Database database, Recordings recordings) {
        this.place = place;
        this.database = database;
        this.recordings = recordings;
    }

    static LogFolder open(LogPlace place) {
        return open(place, Schema.CURRENT, false);
    }

    static LogFolder open(LogPlace place, Schema schema, boolean make) {
        Database database = Database.open(place, schema, make);
        Path folder =
                place.isFolder() ? place.local().resolve(Log.RECORDINGS_FOLDER) : place.copies();
        boolean done = false;
        try {
            Recordings recordings =
                    place.isFolder()
                            ? new FolderRecordings(folder)
                            : new DatabaseRecordings(database, folder);
            done = true;
            return new LogFolder(place, database, recordings);
        } catch (IOException e) {
            throw StoreException.of(e, folder);
        } finally {
            if (!done) {
                database.close();
            }
        }
    }

    /** Makes sure that there is a log in a folder. */
    static void requireLog(LogPlace place) {
        if (!Files.isRegularFile(place.local().resolve(Log.DATABASE_FILE))) {
            throw place.noLog();
        }
    }

    LogPlace place() {
        return place;
    }

    Database database() {
        return database;
    }

    Recordings recordings() {
        return recordings;
    }

    /** Tells whether a file that is not there went by rule, maybe a moment ago. */
    boolean isRemoved(UUID visit, KeptFile file) {
        return database.read(c -> Removals.names(c, visit)).contains(file.name());
    }

    /** Says that a rule took a file away while the log was being copied. */
    StoreException tidiedMeanwhile(UUID visit, KeptFile file) {
        return new StoreException(
                StoreException.Reason.BUSY,
                "'tickover tidy' removed "
                        + recordings.shown(visit, file.name())
                        + " while the copy was being made, so there is none; make it again when"
                        + " 'tidy' is done");
    }

    @Override
    public void close() {
        database.close();
    }
}
