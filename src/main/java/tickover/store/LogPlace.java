package tickover.store;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/**
 * Where a log lives: in a folder, or in a PostgreSQL database that many machines share. What it
 * shows of itself has no password in it.
 */
public final class LogPlace {
    private final Path local;
    private final PostgresAddress address;

    private LogPlace(Path local, PostgresAddress address) {
        this.local = Objects.requireNonNull(local, "local");
        this.address = address;
    }

    /**
     * Names a folder.
     *
     * @param dir it may not exist yet
     * @return the place
     */
    public static LogPlace folder(Path dir) {
        return new LogPlace(dir, null);
    }

    /**
     * Reads a folder's name or an address.
     *
     * @param text a folder, or an address that begins with {@code jdbc:postgresql:}
     * @param environment the process's; {@code PGUSER} and {@code PGPASSWORD} stand in for what an
     *     address leaves out
     * @param home this machine's own data folder: of a log on a server, what belongs to this
     *     machine alone is kept there
     * @return the place
     * @throws StoreException if it is an address of another kind or cannot be read
     */
    public static LogPlace of(String text, Map<String, String> environment, Path home) {
        Objects.requireNonNull(home, "home");
        String start = text.strip().toLowerCase(Locale.ROOT);
        if (start.startsWith(PostgresAddress.PREFIX)) {
            return new LogPlace(home, PostgresAddress.of(text.strip(), environment));
        }
        if (start.startsWith("jdbc:")
                || start.startsWith("postgresql:")
                || start.startsWith("postgres:")) {
            throw new StoreException(
                    StoreException.Reason.BAD_ADDRESS,
                    "a log lives in a folder or on a PostgreSQL server, whose address begins with"
                            + " jdbc:postgresql://; correct the address");
        }
        try {
            return folder(Path.of(text).toAbsolutePath());
        } catch (InvalidPathException e) {
            throw new StoreException(
                    StoreException.Reason.BAD_ADDRESS,
                    Wording.quoted(text) + " is no name of a folder: " + e.getReason(),
                    e);
        }
    }

    /**
     * Returns the folder for what belongs to this machine alone: the log's own folder, or of a log
     * on a server this machine's data folder.
     *
     * @return a folder that may not exist yet
     */
    public Path local() {
        return local;
    }

    /**
     * Tells whether it is a folder.
     *
     * @return false for a log on a server
     */
    public boolean isFolder() {
        return address == null;
    }

    Optional<PostgresAddress> address() {
        return Optional.ofNullable(address);
    }

    /**
     * Says where it is.
     *
     * @return the folder or the address, without user and password
     */
    public String shown() {
        return address == null ? local.toString() : address.shown();
    }

    /** Of a log on a server: where this machine keeps copies of recordings that it looked at. */
    Path copies() {
        return local.resolve("depot").resolve(address.folderName());
    }

    /** Says that there is no log. */
    StoreException noLog() {
        return new StoreException(
                StoreException.Reason.NO_SUCH_LOG,
                "there is no log in "
                        + shown()
                        + (address == null
                                ? "; name its folder with --data"
                                : "; the first import makes one, or correct the address"));
    }

    /**
     * Returns the same as {@link #shown}.
     *
     * @return without user and password
     */
    @Override
    public String toString() {
        return shown();
    }
}
