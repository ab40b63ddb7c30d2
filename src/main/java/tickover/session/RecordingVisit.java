package tickover.session;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.UUID;
import tickover.drive.Engine;
import tickover.drive.Vehicle;
import tickover.link.RecordingReader;
import tickover.store.CaptureDraft;
import tickover.store.Visit;
import tickover.store.VisitDraft;
import tickover.store.VisitFolder;
import tickover.store.VisitFolderException;

/**
 * Makes a visit of a recording: aligns its streams, cuts its captures out, and writes them as a
 * visit folder, with the recording itself beside them. A capture with a gap becomes one capture for
 * each stretch without one: nothing is ever joined across.
 */
public final class RecordingVisit {
    /** What a recording without a vehicle is taken to be of. */
    private static final String NO_UNIT = "unknown";

    /** The recording itself, within the folder. */
    public static final String RECORDING_FILE = "recording.tkr";

    private RecordingVisit() {}

    /**
     * What a recording does not say of itself.
     *
     * @param vehicleFile a {@code vehicle.toml}; null to take the one in the recording
     * @param complaint what the driver says; may be empty
     * @param odometerKmOrNaN km; NaN if not given
     */
    public record About(Path vehicleFile, String complaint, double odometerKmOrNaN) {
        /** Nothing more than the recording says. */
        public static final About NOTHING = new About(null, "", Double.NaN);

        public About {
            Objects.requireNonNull(complaint, "complaint");
        }
    }

    /**
     * What became of a recording.
     *
     * @param visit the visit as it stands in the folder
     * @param remarks what a person should know: stretches that were too short, a vehicle that is
     *     not known; whole sentences
     */
    public record Made(Visit visit, List<String> remarks) {
        public Made {
            Objects.requireNonNull(visit, "visit");
            remarks = List.copyOf(remarks);
        }
    }

    /**
     * Tells whether a file is a recording by its ending.
     *
     * @param file any path
     * @return true for {@code .tkr}
     */
    public static boolean isNamedBy(Path file) {
        return file.toString().toLowerCase(Locale.ROOT).endsWith(".tkr");
    }

    /**
     * Reads which visit a recording is.
     *
     * @param recording the recording
     * @return the id of the visit that is made of it
     * @throws AcquisitionException if it is no recording
     */
    public static UUID idOf(Path recording) {
        return AcquisitionException.guard(
                () -> RecordingStart.of(recording, RecordingReader.open(recording)).id());
    }

    /**
     * Writes a recording as a visit folder: all of it, or nothing. It is written beside the folder
     * and given its name at the end.
     *
     * @param recording the recording
     * @param about what it does not say of itself
     * @param dir the folder; made if it does not exist, else it has to be empty
     * @return the visit, which has the recording's own id
     * @throws AcquisitionException if it is no recording, or holds nothing that can be used
     * @throws tickover.store.StoreException if the folder is not empty or cannot be written
     */
    public static Made write(Path recording, About about, Path dir) {
        return write(recording, about, dir, CaptureCutter.MOST_VALUES);
    }

    /**
     * @param mostValues samples times axes of a capture at most; longer ones are cut into parts
     */
    static Made write(Path recording, About about, Path dir, int mostValues) {
        List<String> remarks = new ArrayList<>();
        RecordingFacts facts = AcquisitionException.guard(() -> RecordingFacts.of(recording));
        remarks.addAll(facts.remarks());
        Vehicle vehicle = vehicle(recording, about, facts.vehicleToml(), remarks);
        requirePulley(recording, vehicle, facts.tachPulley());
        CaptureDrafts captures = new CaptureDrafts(facts.tachPulley(), remarks);
        Visit visit =
                VisitFolder.writeWhole(
                        dir,
                        part -> {
                            cut(recording, facts, vehicle, part, mostValues, captures);
                            copy(recording, part.resolve(RECORDING_FILE));
                            return draft(vehicle, facts, about, captures.drafts());
                        });
        return new Made(visit, remarks);
    }

    private static void cut(
            Path recording,
            RecordingFacts facts,
            Vehicle vehicle,
            Path folder,
            int mostValues,
            CaptureDrafts captures) {
        CaptureCutter cutter =
                new CaptureCutter(recording, facts, vehicle, folder, mostValues, captures::add);
        AcquisitionException.guard(
                () -> {
                    cutter.cut();
                    return captures;
                });
        if (captures.drafts().isEmpty()) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.BAD_INPUT,
                    recording
                            + " holds no stretch of "
                            + CaptureCutter.LEAST_S
                            + " s or more without a gap: 'tickover replay' shows what it holds",
                    null);
        }
    }

    private static VisitDraft draft(
            Vehicle vehicle, RecordingFacts facts, About about, List<CaptureDraft> captures) {
        VisitDraft draft =
                VisitDraft.of(vehicle, facts.start().localDate(), captures)
                        .withComplaint(about.complaint())
                        .withId(facts.start().id());
        return Double.isNaN(about.odometerKmOrNaN())
                ? draft
                : draft.withOdometerKm(about.odometerKmOrNaN());
    }

    /** Before anything is written: the marked pulley's ratio turns its pulses into crank turns. */
    private static void requirePulley(Path recording, Vehicle vehicle, String tachPulley) {
        List<String> known = vehicle.pulleys().stream().map(p -> p.name()).toList();
        if (!known.isEmpty() && !known.contains(tachPulley)) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.BAD_INPUT,
                    recording
                            + " has its tach's mark on '"
                            + tachPulley
                            + "', which the vehicle does not have; it has "
                            + String.join(", ", known)
                            + ": give a vehicle.toml with that pulley by --vehicle",
                    null);
        }
    }

    private static void copy(Path from, Path to) {
        try {
            Files.copy(from, to, StandardCopyOption.COPY_ATTRIBUTES);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Vehicle vehicle(Path recording, About about, String toml, List<String> remarks) {
        if (about.vehicleFile() != null) {
            return VisitFolder.readVehicle(about.vehicleFile());
        }
        if (toml.isEmpty()) {
            remarks.add(
                    recording.getFileName()
                            + " does not say which vehicle it is of; parts can be judged only with"
                            + " --vehicle.");
            return new Vehicle(NO_UNIT, "", Engine.of(4, 4), List.of(), List.of());
        }
        try {
            return VisitFolder.vehicleOf(toml);
        } catch (VisitFolderException e) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.BAD_INPUT,
                    recording
                            + " describes its vehicle in a way that cannot be read ("
                            + e.getMessage()
                            + "): give a vehicle.toml by --vehicle",
                    e);
        }
    }
}
