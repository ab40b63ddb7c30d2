package tickover.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import tickover.diagnose.VisitResult;
import tickover.drive.Vehicle;

/**
 * The log: every visit ever imported, with its recordings, and every result ever saved. A SQLite
 * database {@code tickover.db} and a folder {@code recordings} beside it, or one PostgreSQL
 * database with both; {@code docs/log.md} describes the tables.
 *
 * <p>Several processes may have the same log open. One thread per instance.
 */
public final class Log implements AutoCloseable {
    static final String DATABASE_FILE = "tickover.db";
    static final String RECORDINGS_FOLDER = "recordings";

    private final Database database;
    private final Recordings recordings;
    private final LogFolder folder;
    private final Clock clock;
    private final History history;

    private Log(LogFolder folder, Clock clock) {
        this.folder = folder;
        this.database = folder.database();
        this.recordings = folder.recordings();
        this.clock = clock;
        this.history = new History(database, clock);
    }

    /**
     * Opens a log in a folder by the system's clock.
     *
     * @param dataDir where it lives; made if it does not exist
     * @return the open log
     * @throws StoreException if it cannot be opened
     */
    public static Log open(Path dataDir) {
        return open(LogPlace.folder(dataDir));
    }

    /**
     * Opens a log by the system's clock.
     *
     * @param place where it lives; made if there is none
     * @return the open log
     * @throws StoreException if it cannot be opened
     */
    public static Log open(LogPlace place) {
        return open(place, Clock.systemUTC());
    }

    /**
     * Opens a log in a folder.
     *
     * @param dataDir where it lives; made if it does not exist
     * @param clock stamps imports and results
     * @return the open log
     * @throws StoreException if it cannot be opened
     */
    public static Log open(Path dataDir, Clock clock) {
        return open(LogPlace.folder(dataDir), clock);
    }

    /**
     * Opens a log, brings its tables up to date and removes what a crashed import left.
     *
     * @param place where it lives; made if there is none
     * @param clock stamps imports and results
     * @return the open log
     * @throws StoreException if it cannot be opened, is damaged, or was written by a newer version
     */
    public static Log open(LogPlace place, Clock clock) {
        return open(place, clock, Schema.CURRENT);
    }

    static Log open(LogPlace place, Clock clock, Schema schema) {
        Objects.requireNonNull(clock, "clock");
        if (place.isFolder()) {
            try {
                Files.createDirectories(place.local());
            } catch (IOException e) {
                throw StoreException.of(e, place.local());
            }
        }
        LogFolder log = LogFolder.open(place, schema, true);
        boolean done = false;
        try {
            log.recordings().sweep(log.database());
            done = true;
            return new Log(log, clock);
        } finally {
            if (!done) {
                log.close();
            }
        }
    }

    /**
     * Takes a visit in: all of it, or nothing.
     *
     * @param visit as {@link VisitFolder#read} gave it
     * @return whether it was new
     * @throws StoreException if a visit of this id but with other content is kept, or the disk or
     *     database fails
     * @throws VisitFolderException if a file changed since the visit was read
     */
    public ImportOutcome importVisit(Visit visit) {
        return VisitImport.take(folder, visit, clock.instant());
    }

    /**
     * Tells whether a file was taken in with a visit, byte for byte.
     *
     * @param id the visit's
     * @param name what it is called within the visit folder
     * @param file the file as it is now
     * @return {@link KeptState#NO_VISIT} if the log has no such visit
     * @throws StoreException if the database fails
     * @throws VisitFolderException if the file cannot be read
     */
    public KeptState holds(UUID id, String name, Path file) {
        List<KeptFile> files = database.read(c -> VisitRows.files(c, id));
        if (files.isEmpty()) {
            return KeptState.NO_VISIT;
        }
        String now = KeptFile.of(file, false).sha256();
        boolean same =
                files.stream().anyMatch(f -> f.name().equals(name) && f.sha256().equals(now));
        return same ? KeptState.SAME : KeptState.OTHER;
    }

    /**
     * Saves the drive of a vehicle as it is now. Visits keep the drive that they were recorded
     * with.
     *
     * @param vehicle the vehicle, which may be new to the log
     * @throws StoreException if the database fails
     */
    public void saveVehicle(Vehicle vehicle) {
        String text = VisitFolder.vehicleText(vehicle);
        database.write(
                c -> {
                    VisitRows.requireVehicle(c, vehicle.unit());
                    Row.insert(
                            c,
                            Sql.SAVE_DRIVE,
                            text,
                            clock.instant().toEpochMilli(),
                            vehicle.unit());
                    Standings.forget(c, vehicle.unit());
                    return text;
                });
    }

    /**
     * Lists the vehicles.
     *
     * @return by unit
     * @throws StoreException if the database fails
     */
    public List<KeptVehicle> vehicles() {
        return database.read(c -> Row.list(c, Sql.LIST_VEHICLES, KeptVehicle::of));
    }

    /**
     * Finds a vehicle's drive: what was saved or imported last.
     *
     * @param unit how the fleet calls it
     * @return empty if the log knows no vehicle of that name
     * @throws StoreException if the database fails or holds a drive that cannot be read
     */
    public Optional<Vehicle> vehicle(String unit) {
        Optional<String> text =
                database.read(c -> Row.first(c, Sql.FIND_DRIVES, r -> r.getString(1), unit, unit));
        try {
            return text.map(VisitFolder::vehicleOf);
        } catch (VisitFolderException e) {
            throw new StoreException(
                    StoreException.Reason.DAMAGED,
                    "the drive of " + unit + " in the log cannot be read: " + e.getMessage(),
                    e);
        }
    }

    /**
     * Lists the visits.
     *
     * @return oldest first
     * @throws StoreException if the database fails
     */
    public List<KeptVisit> visits() {
        return database.read(c -> Row.list(c, Sql.LIST_VISITS, VisitRows::keptVisit));
    }

    /**
     * Lists the visits of one vehicle.
     *
     * @param unit how the fleet calls it
     * @return oldest first, empty if there is none
     * @throws StoreException if the database fails
     */
    public List<KeptVisit> visits(String unit) {
        return database.read(c -> Row.list(c, Sql.LIST_VISITS_OF_UNIT, VisitRows::keptVisit, unit));
    }

    /**
     * Finds a visit.
     *
     * @param id its id
     * @return the visit, whose captures load from the log's own recordings, as far as they were not
     *     removed by rule, see {@link #removedByRule}; empty if there is none
     * @throws StoreException if the database fails or the visit's files are damaged
     */
    public Optional<Visit> visit(UUID id) {
        List<KeptFile> files = database.read(c -> VisitRows.files(c, id));
        if (files.isEmpty()) {
            return Optional.empty();
        }
        Removals.Of removed = database.read(c -> Removals.of(c, id));
        try {
            Path dir = recordings.folder(id, VisitCopies.needed(files, removed.names()));
            return Optional.of(VisitFolder.readKept(dir, id, files, removed));
        } catch (NoSuchFileException e) {
            throw new StoreException(
                    StoreException.Reason.DAMAGED,
                    e.getFile() + " is missing; put it back from a backup",
                    e);
        } catch (IOException e) {
            throw StoreException.of(e, folder.place().local());
        } catch (VisitFolderException e) {
            throw new StoreException(
                    StoreException.Reason.DAMAGED,
                    "the recordings of visit " + id + " are damaged: " + e.getMessage(),
                    e);
        }
    }

    /**
     * Writes a visit's folder, byte for byte as it was imported.
     *
     * @param id its id
     * @param dir a folder that is empty or does not exist yet
     * @throws StoreException if there is no such visit, the folder is not empty, a file is damaged,
     *     or the disk fails
     */
    public void export(UUID id, Path dir) {
        List<KeptFile> files = database.read(c -> VisitRows.files(c, id));
        if (files.isEmpty()) {
            throw noSuchVisit(id);
        }
        Optional<String> removed = removedByRule(id);
        if (removed.isPresent()) {
            throw new StoreException(
                    StoreException.Reason.REMOVED,
                    removed.get() + "; a whole visit folder can be had only from a backup");
        }
        try {
            export(id, files, dir);
        } catch (IOException e) {
            throw StoreException.of(e, dir);
        }
    }

    private void export(UUID id, List<KeptFile> files, Path dir) throws IOException {
        NewFolder.require(dir);
        boolean done = false;
        try {
            for (KeptFile file : files) {
                if (!recordings.holds(id, file.name())
                        || !FolderRecordings.copy(recordings.open(id, file), dir, file)) {
                    throw folder.isRemoved(id, file)
                            ? new StoreException(
                                    StoreException.Reason.REMOVED,
                                    removedByRule(id).orElseThrow()
                                            + "; a whole visit folder can be had only from a"
                                            + " backup")
                            : new StoreException(
                                    StoreException.Reason.DAMAGED,
                                    recordings.shown(id, file.name())
                                            + " is not as it was imported; import an archive that"
                                            + " has it, or put a backup in its place");
                }
            }
            done = true;
        } finally {
            if (!done) {
                for (KeptFile file : files) {
                    Files.deleteIfExists(dir.resolve(file.name()));
                }
            }
        }
    }

    /**
     * Tells whether raw recordings of a visit were removed by rule.
     *
     * @param id its id
     * @return a sentence without its full stop that says when and by which rule; empty if all files
     *     are kept
     * @throws StoreException if the database fails
     */
    public Optional<String> removedByRule(UUID id) {
        return database.read(c -> Removals.sentence(c, id));
    }

    private static StoreException noSuchVisit(UUID id) {
        return new StoreException(
                StoreException.Reason.NO_SUCH_VISIT,
                "there is no visit " + id + " in the log; import it first");
    }

    /**
     * Saves a result beside earlier ones of the same visit. The latest counts; its time is after
     * theirs, even if the clock was put back.
     *
     * @param visitId whose
     * @param result what was found
     * @throws IllegalArgumentException if the result names captures that the visit does not have, a
     *     capture or a part's level twice, or a level without its capture's summary
     * @throws StoreException if there is no such visit or the database fails
     */
    public void saveResult(UUID visitId, VisitResult result) {
        Set<String> captures = new HashSet<>(database.read(c -> VisitRows.captures(c, visitId)));
        if (captures.isEmpty()) {
            throw noSuchVisit(visitId);
        }
        ResultRows.requireWhole(result, captures);
        database.write(
                c -> {
                    ResultRows.insert(c, visitId, result, clock.instant());
                    Standings.forget(c, VisitRows.vehicleOf(c, visitId));
                    return result;
                });
    }

    /**
     * Finds the result of a visit that was saved last.
     *
     * @param visitId whose
     * @return empty if there is none
     * @throws StoreException if the database fails
     */
    public Optional<VisitResult> latestResult(UUID visitId) {
        return database.read(c -> ResultRows.latest(c, visitId));
    }

    /**
     * Lists all results of a visit.
     *
     * @param visitId whose
     * @return the latest first; empty if there is none
     * @throws StoreException if the database fails
     */
    public List<VisitResult> results(UUID visitId) {
        return database.read(c -> ResultRows.all(c, visitId));
    }

    /**
     * Returns what is known over visits.
     *
     * @return levels, repairs, notes, and how the fleet stands; usable until the log is closed
     */
    public History history() {
        return history;
    }

    Database database() {
        return database;
    }

    @Override
    public void close() {
        database.close();
    }
}
