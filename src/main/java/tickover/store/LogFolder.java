package tickover.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * A log's folder, opened for work on the log as a whole. Unlike {@link Log#open} it removes
 * nothing, and makes no log where there is none. One thread.
 */
final class LogFolder implements AutoCloseable {
    private final Path dir;
    private final Database database;
    private final Recordings recordings;

    private LogFolder(Path dir, Database database, Recordings recordings) {
        this.dir = dir;
        this.database = database;
        this.recordings = recordings;
    }

    static LogFolder open(Path dir) {
        requireLog(dir);
        Recordings recordings;
        try {
            recordings = new Recordings(dir.resolve(Log.RECORDINGS_FOLDER));
        } catch (IOException e) {
            throw StoreException.of(e, dir);
        }
        return new LogFolder(
                dir, Database.open(dir.resolve(Log.DATABASE_FILE), Schema.CURRENT), recordings);
    }

    static void requireLog(Path dir) {
        if (!Files.isRegularFile(dir.resolve(Log.DATABASE_FILE))) {
            throw new StoreException(
                    StoreException.Reason.NO_SUCH_LOG,
                    "there is no log in " + dir + "; name its folder with --data");
        }
    }

    Path dir() {
        return dir;
    }

    Database database() {
        return database;
    }

    Recordings recordings() {
        return recordings;
    }

    @Override
    public void close() {
        database.close();
    }
}
