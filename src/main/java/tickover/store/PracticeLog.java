package tickover.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.VisitMoment;
import tickover.diagnose.VisitResult;
import tickover.drive.Vehicle;

/**
 * Fills a log with simulated visits that have results but no recordings, to try it at the size of a
 * big fleet.
 */
public final class PracticeLog {
    /** Visits per transaction, as a merge of another log would do. */
    private static final int BATCH = 500;

    private PracticeLog() {}

    /**
     * A visit without recordings.
     *
     * @param moment its id and date
     * @param vehicle whose
     * @param result what it says
     */
    public record PracticeVisit(VisitMoment moment, Vehicle vehicle, VisitResult result) {
        public PracticeVisit {
            Objects.requireNonNull(moment, "moment");
            Objects.requireNonNull(vehicle, "vehicle");
            Objects.requireNonNull(result, "result");
        }
    }

    /**
     * Writes visits into a log that has none.
     *
     * @param log an empty log
     * @param visits in any order
     * @param total how many there are
     * @param progress hears how many are written
     * @throws StoreException if the log has visits already or the database fails
     */
    public static void fill(
            Log log, Iterator<PracticeVisit> visits, int total, History.Progress progress) {
        Database database = log.database();
        if (!database.read(VisitRows::ids).isEmpty()) {
            throw new StoreException(
                    StoreException.Reason.FOLDER_NOT_EMPTY,
                    "this log has visits already; simulated ones go into a log of their own, in an"
                            + " empty folder");
        }
        int done = 0;
        while (visits.hasNext()) {
            List<PracticeVisit> batch = new ArrayList<>();
            while (batch.size() < BATCH && visits.hasNext()) {
                batch.add(visits.next());
            }
            database.write(
                    c -> {
                        for (PracticeVisit v : batch) {
                            insert(c, v);
                        }
                        return batch;
                    });
            done += batch.size();
            progress.at(done, total);
        }
    }

    /**
     * Returns the room that a log's database takes.
     *
     * @param log the log
     * @return bytes
     * @throws StoreException if the database fails
     */
    public static long sizeBytes(Log log) {
        Database database = log.database();
        return database.read(database.dialect()::sizeBytes);
    }

    private static void insert(Connection c, PracticeVisit visit) throws SQLException {
        Vehicle vehicle = visit.vehicle();
        long vehicleId = VisitRows.requireVehicle(c, vehicle.unit());
        String id = visit.moment().id().toString();
        OptionalDouble km = visit.moment().odometerKm();
        String date = TomlText.DATE_TIME.format(visit.moment().date());
        Row.insert(
                c,
                Sql.INSERT_VISIT,
                id,
                vehicleId,
                date,
                km.isPresent() ? km.getAsDouble() : null,
                "",
                vehicle.description(),
                VisitFolder.vehicleText(vehicle),
                "[visit]\ndate = " + date + "\n",
                "",
                0L);
        try (Row.Inserter rows = new Row.Inserter(c, Sql.INSERT_CAPTURE)) {
            int place = 0;
            for (CaptureSummary s : visit.result().captures()) {
                String wav = s.label().id() + ".wav";
                VisitRows.insertCapture(
                        rows, s.label(), id, s.label().id(), place++, wav, 1.0, "tach", null);
            }
            rows.flush();
        }
        ResultRows.insert(
                c,
                visit.moment().id(),
                visit.result(),
                visit.moment().date().toInstant(ZoneOffset.UTC));
        Standings.forget(c, vehicleId);
    }
}
