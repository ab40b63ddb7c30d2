package tickover.store;

import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.UUID;
import tickover.drive.Vehicle;

/**
 * One visit of one vehicle: what was recorded, where, in which condition. Holds no samples; each
 * capture loads its own.
 *
 * <p>Two visits are equal if everything that {@code vehicle.toml} and {@code visit.toml} can say of
 * them is.
 */
public final class Visit {
    private final VisitFacts facts;
    private final List<VisitCapture> captures;
    private final UUID id;
    private final Path folder;
    private final List<KeptFile> files;

    /** What is known of a visit apart from its captures; the odometer may be null. */
    record VisitFacts(
            Vehicle vehicle, LocalDateTime date, Double odometerKm, String complaint, UUID ownId) {}

    Visit(
            VisitFacts facts,
            List<VisitCapture> captures,
            UUID id,
            Path folder,
            List<KeptFile> files) {
        this.facts = facts;
        this.captures = List.copyOf(captures);
        this.id = id;
        this.folder = folder;
        this.files = List.copyOf(files);
    }

    /**
     * Returns what tells it from every other visit.
     *
     * @return the id of {@code visit.toml}; without one, a UUID made from the bytes of every file
     *     that the visit names
     */
    public UUID id() {
        return id;
    }

    /**
     * Returns when it was.
     *
     * @return local date and time
     */
    public LocalDateTime date() {
        return facts.date();
    }

    /**
     * Returns how far the vehicle had run.
     *
     * @return km, empty if not given
     */
    public OptionalDouble odometerKm() {
        return facts.odometerKm() == null
                ? OptionalDouble.empty()
                : OptionalDouble.of(facts.odometerKm());
    }

    /**
     * Returns what the driver complained of.
     *
     * @return free text, may be empty
     */
    public String complaint() {
        return facts.complaint();
    }

    /**
     * Returns the vehicle as it was described for this visit.
     *
     * @return vehicle and accessory drive
     */
    public Vehicle vehicle() {
        return facts.vehicle();
    }

    /**
     * Returns its captures.
     *
     * @return in the order of {@code visit.toml}, at least one
     */
    public List<VisitCapture> captures() {
        return captures;
    }

    /**
     * Finds a capture.
     *
     * @param captureId as {@link tickover.diagnose.CaptureLabel#id}
     * @return the capture, or empty
     */
    public Optional<VisitCapture> capture(String captureId) {
        return captures.stream().filter(c -> c.label().id().equals(captureId)).findFirst();
    }

    /** The folder that it was read from. */
    Path folder() {
        return folder;
    }

    /** Every file to keep, those that the visit names marked. */
    List<KeptFile> files() {
        return files;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Visit v
                && id.equals(v.id)
                && facts.equals(v.facts)
                && captures.equals(v.captures);
    }

    @Override
    public int hashCode() {
        return Objects.hash(id, facts, captures);
    }
}
