package tickover.sim;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Objects;
import tickover.drive.Vehicle;

/**
 * One visit as a workshop hands it in, and the truth behind it.
 *
 * @param id a UUID
 * @param date when
 * @param odometerKm distance driven, km
 * @param complaint what the driver says
 * @param vehicle as it was measured: not exactly as it is
 * @param captures what was recorded
 * @param truth what is really wrong
 */
public record SimulatedVisit(
        String id,
        LocalDateTime date,
        int odometerKm,
        String complaint,
        Vehicle vehicle,
        List<SimulatedCapture> captures,
        Truth truth) {
    public SimulatedVisit {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(date, "date");
        Objects.requireNonNull(complaint, "complaint");
        Objects.requireNonNull(vehicle, "vehicle");
        Objects.requireNonNull(truth, "truth");
        captures = List.copyOf(captures);
    }
}
