package tickover.store;

import java.time.Clock;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import tickover.diagnose.MeasuredLevel;
import tickover.diagnose.RepairMark;
import tickover.diagnose.VehicleTrend;

/**
 * What the log knows over visits: levels of every part, repairs that restart their baselines,
 * notes, and how the whole fleet stands. {@link Log#history} gives it; it lives as long as its log.
 */
public final class History {
    /** So many sisters, those seen last, tell what is usual. */
    public static final int MOST_SISTERS = 25;

    /** Vehicles made anew per transaction, so that other writers wait for no longer. */
    private static final int BATCH = 100;

    private final Database database;
    private final Clock clock;

    History(Database database, Clock clock) {
        this.database = database;
        this.clock = clock;
    }

    /** Hears how far a longer work has come. */
    public interface Progress {
        /**
         * Tells it.
         *
         * @param done vehicles done
         * @param total vehicles to do
         */
        void at(int done, int total);
    }

    /**
     * Lists what was ever measured of every part of one vehicle, by the latest result of each
     * visit.
     *
     * @param unit how the fleet calls the vehicle
     * @return oldest visit first; empty if the log knows no level of it
     * @throws StoreException if the database fails
     */
    public List<MeasuredLevel> levels(String unit) {
        return database.read(
                c -> {
                    List<MeasuredLevel> none = List.of();
                    var id = Row.first(c, Sql.FIND_VEHICLE, r -> r.getLong(1), unit);
                    return id.isEmpty() ? none : LevelJoin.ofVehicle(c, id.get());
                });
    }

    /**
     * Lists the visits of one vehicle that have no result of this version of the program.
     *
     * @param unit how the fleet calls the vehicle
     * @param codeVersion the version
     * @return oldest first
     * @throws StoreException if the database fails
     */
    public List<UUID> outdated(String unit, String codeVersion) {
        return database.read(
                c ->
                        Row.list(
                                c,
                                HistorySql.OUTDATED_VISITS,
                                r -> UUID.fromString(r.getString(1)),
                                unit,
                                codeVersion));
    }

    /**
     * Judges every part of one vehicle against its own past.
     *
     * @param unit how the fleet calls the vehicle
     * @return the judgement; without series if the log knows no level of it
     * @throws StoreException if the database fails
     */
    public VehicleTrend trend(String unit) {
        return VehicleTrend.of(levels(unit), repairs(unit));
    }

    /**
     * Lists the levels of one part at the last visits of vehicles whose drive is the same but for
     * name and description.
     *
     * @param unit whose sisters
     * @param part as {@link tickover.diagnose.PartLevel#part}
     * @return by the sister's unit; at most {@value #MOST_SISTERS} sisters, those seen last;
     *     sisters whose standing was not made yet are missing, see {@link #refresh}
     * @throws StoreException if the database fails
     */
    public Map<String, List<MeasuredLevel>> sisters(String unit, String part) {
        return database.read(
                c -> {
                    Map<String, List<MeasuredLevel>> none = Map.of();
                    var id = Row.first(c, Sql.FIND_VEHICLE, r -> r.getLong(1), unit);
                    return id.isEmpty()
                            ? none
                            : LevelJoin.ofSisters(c, id.get(), MOST_SISTERS, part);
                });
    }

    /**
     * Makes anew what is missing of the fleet's overview: what visits, results, repairs and newer
     * rules have outdated.
     *
     * @param progress hears how far it is
     * @throws StoreException if the database fails
     */
    public void refresh(Progress progress) {
        Objects.requireNonNull(progress, "progress");
        List<Long> missing = database.read(Standings::missing);
        for (int from = 0; from < missing.size(); from += BATCH) {
            List<Long> batch = missing.subList(from, Math.min(missing.size(), from + BATCH));
            database.write(
                    c -> {
                        for (long id : batch) {
                            Standings.make(c, id);
                        }
                        return batch;
                    });
            progress.at(from + batch.size(), missing.size());
        }
    }

    /**
     * Lists how every vehicle stands. Call {@link #refresh} first; vehicles whose standing is not
     * up to date are left out otherwise.
     *
     * @return what needs a look most comes first
     * @throws StoreException if the database fails
     */
    public List<FleetLine> fleet() {
        return database.read(Standings::lines);
    }

    /**
     * Marks a repair: baselines of the part start anew after it.
     *
     * @param unit how the fleet calls the vehicle; it has to be known to the log
     * @param at when it was done, local; visits after it are after the repair
     * @param part as {@link tickover.diagnose.PartLevel#part}; empty for the whole front
     * @param text what was done
     * @return the mark
     * @throws StoreException if there is no such vehicle or the database fails
     */
    public RepairMark addRepair(String unit, LocalDateTime at, String part, String text) {
        RepairMark mark = new RepairMark(UUID.randomUUID(), unit, at, part, text);
        return database.write(
                c -> {
                    long vehicle = VisitRows.knownVehicle(c, unit);
                    Row.insert(
                            c,
                            HistorySql.INSERT_REPAIR,
                            mark.id().toString(),
                            vehicle,
                            part,
                            TomlText.DATE_TIME.format(at),
                            text,
                            clock.millis());
                    Standings.forget(c, vehicle);
                    return mark;
                });
    }

    /**
     * Lists the repairs of one vehicle that were not taken back.
     *
     * @param unit how the fleet calls it
     * @return oldest first
     * @throws StoreException if the database fails
     */
    public List<RepairMark> repairs(String unit) {
        return database.read(c -> Standings.repairs(c, unit));
    }

    /**
     * Lists the repairs of all vehicles that were not taken back.
     *
     * @return oldest first
     * @throws StoreException if the database fails
     */
    public List<RepairMark> repairs() {
        return database.read(c -> Row.list(c, HistorySql.LIST_REPAIRS, Standings::repair));
    }

    /**
     * Writes something down about a vehicle.
     *
     * @param note of a vehicle that the log knows; its id is new
     * @throws StoreException if there is no such vehicle or the database fails
     */
    public void addNote(Note note) {
        database.write(
                c -> {
                    long vehicle = VisitRows.knownVehicle(c, note.unit());
                    Row.insert(
                            c,
                            HistorySql.INSERT_NOTE,
                            note.id().toString(),
                            vehicle,
                            note.visitId(),
                            note.part(),
                            TomlText.DATE_TIME.format(note.at()),
                            note.text(),
                            clock.millis());
                    return note;
                });
    }

    /**
     * Lists the notes about one vehicle that were not taken back.
     *
     * @param unit how the fleet calls it
     * @return oldest first
     * @throws StoreException if the database fails
     */
    public List<Note> notes(String unit) {
        return database.read(
                c -> Row.list(c, HistorySql.LIST_NOTES_OF_UNIT, VisitRows::note, unit));
    }

    /**
     * Lists the notes about all vehicles that were not taken back.
     *
     * @return oldest first
     * @throws StoreException if the database fails
     */
    public List<Note> notes() {
        return database.read(c -> Row.list(c, HistorySql.LIST_NOTES, VisitRows::note));
    }

    /** Takes a table row by row. */
    public interface TableSink {
        /**
         * Takes the head, once, first.
         *
         * @param columns names of the columns
         */
        void head(List<String> columns);

        /**
         * Takes a row.
         *
         * @param values as many as columns, in their order; texts and numbers, null where the table
         *     has nothing. The one place where a null crosses: it is what the table holds.
         */
        void row(List<Object> values);
    }

    /**
     * Lists the tables of the log.
     *
     * @return by name
     * @throws StoreException if the database fails
     */
    public List<String> tables() {
        return database.read(database.dialect()::tables);
    }

    /**
     * Reads a table, in the order of its rows.
     *
     * @param name one of {@link #tables}
     * @param sink takes the rows
     * @throws IllegalArgumentException if there is no such table
     * @throws StoreException if the database fails
     */
    public void table(String name, TableSink sink) {
        if (!tables().contains(name)) {
            throw new IllegalArgumentException("name=" + name + ", need a table of the log");
        }
        database.read(
                c -> {
                    String order = database.dialect().rowOrder(c, name);
                    Row.each(c, "SELECT * FROM " + name + order, sink);
                    return name;
                });
    }

    /**
     * Takes a note or a repair mark back. It stays in the log, and counts no more.
     *
     * @param id its id
     * @return false if there is none of this id, or it was taken back already
     * @throws StoreException if the database fails
     */
    public boolean withdraw(UUID id) {
        return database.write(
                c -> {
                    var vehicle =
                            Row.first(
                                    c,
                                    HistorySql.FIND_MARKED_VEHICLE,
                                    r -> r.getLong(1),
                                    id.toString());
                    if (vehicle.isEmpty()) {
                        return false;
                    }
                    Row.insert(c, HistorySql.INSERT_WITHDRAWAL, id.toString(), clock.millis());
                    Standings.forget(c, vehicle.get());
                    return true;
                });
    }
}
