package tickover.session;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import tickover.drive.Engine;
import tickover.drive.Vehicle;
import tickover.store.CaptureDraft;
import tickover.store.Visit;
import tickover.store.VisitDraft;
import tickover.store.VisitFolder;

/**
 * Makes a visit of a recording: aligns its streams, cuts its captures out, and writes them as a
 * visit folder, with the recording itself beside them. A capture with a gap becomes one capture for
 * each stretch without one: nothing is ever joined across.
 */
public final class RecordingVisit {
    /** What a recording without a vehicle is taken to be of. */
    private static final String NO_UNIT = "unknown";

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
     * Writes a recording as a visit folder.
     *
     * @param recording the recording
     * @param about what it does not say of itself
     * @param dir the folder; made if it does not exist, else it has to be empty
     * @return the visit, which has the recording's own id
     * @throws AcquisitionException if it is no recording, or holds nothing that can be used
     */
    public static Made write(Path recording, About about, Path dir) {
        List<String> remarks = new ArrayList<>();
        Vehicle vehicle = vehicle(recording, about, remarks);
        CutCapture.All cut =
                AcquisitionException.guard(() -> new CaptureCutter(recording, vehicle).cut());
        requirePulley(recording, vehicle, cut.content().tachPulley());
        List<CaptureDraft> drafts = new ArrayList<>();
        for (CutCapture capture : cut.captures()) {
            drafts.addAll(CaptureDrafts.of(capture, cut.content().tachPulley(), remarks));
        }
        if (drafts.isEmpty()) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.BAD_INPUT,
                    recording
                            + " holds no stretch of "
                            + CaptureCutter.LEAST_S
                            + " s or more without a gap: 'tickover replay' shows what it holds",
                    null);
        }
        VisitDraft draft =
                VisitDraft.of(
                                vehicle,
                                LocalDateTime.ofInstant(
                                                cut.content().startedAt(), ZoneId.systemDefault())
                                        .withNano(0),
                                drafts)
                        .withComplaint(about.complaint())
                        .withId(cut.content().id());
        if (!Double.isNaN(about.odometerKmOrNaN())) {
            draft = draft.withOdometerKm(about.odometerKmOrNaN());
        }
        VisitFolder.write(draft, dir);
        copy(recording, dir.resolve("recording.tkr"));
        return new Made(VisitFolder.read(dir), remarks);
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

    private static Vehicle vehicle(Path recording, About about, List<String> remarks) {
        if (about.vehicleFile() != null) {
            return VisitFolder.readVehicle(about.vehicleFile());
        }
        String toml = AcquisitionException.guard(() -> CaptureCutter.vehicleToml(recording));
        if (toml.isEmpty()) {
            remarks.add(
                    recording.getFileName()
                            + " does not say which vehicle it is of; parts can be judged only with"
                            + " --vehicle.");
            return new Vehicle(NO_UNIT, "", Engine.of(4, 4), List.of(), List.of());
        }
        try {
            Path file = Files.createTempFile("tickover", ".toml");
            try {
                Files.writeString(file, toml, StandardCharsets.UTF_8);
                return VisitFolder.readVehicle(file);
            } finally {
                Files.deleteIfExists(file);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
