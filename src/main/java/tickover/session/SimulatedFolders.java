package tickover.session;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import tickover.align.CaptureSignal;
import tickover.align.NoSpeed;
import tickover.align.SpeedReadings;
import tickover.align.SpeedSource;
import tickover.align.TachPulses;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Vehicle;
import tickover.sim.SimulatedCapture;
import tickover.sim.SimulatedVisit;
import tickover.sim.SpeedRecord;
import tickover.store.CaptureDraft;
import tickover.store.Visit;
import tickover.store.VisitDraft;
import tickover.store.VisitFolder;
import tickover.store.WavEncoding;

/** Hands simulated visits in as visit folders, as a workshop would: the truth stays outside. */
public final class SimulatedFolders {
    private SimulatedFolders() {}

    /**
     * Writes a visit folder.
     *
     * @param visit the visit
     * @param dir the folder; made if it does not exist, else it has to be empty
     * @return the visit as it now stands in the folder
     * @throws tickover.store.StoreException if the folder is not empty or cannot be written
     */
    public static Visit write(SimulatedVisit visit, Path dir) {
        List<CaptureDraft> captures = new ArrayList<>();
        for (SimulatedCapture c : visit.captures()) {
            captures.add(draft(c, visit.vehicle()));
        }
        VisitDraft draft =
                VisitDraft.of(visit.vehicle(), visit.date(), captures)
                        .withOdometerKm(visit.odometerKm())
                        .withComplaint(visit.complaint())
                        .withId(UUID.fromString(visit.id()));
        return VisitFolder.write(draft, dir);
    }

    /**
     * The samples and speed of a simulated capture as the pipeline takes them, without a folder in
     * between. The samples are shared, not copied.
     *
     * @param capture the capture
     * @param vehicle the vehicle as handed in, for the ratio of the tach's pulley
     * @return the signal
     */
    public static CaptureSignal signal(SimulatedCapture capture, Vehicle vehicle) {
        double[][] accel = new double[capture.channels()][];
        Arrays.setAll(accel, capture::accelMps2);
        return new CaptureSignal(
                capture.recorder().sampleRateHz(), accel, speed(capture.speed(), vehicle));
    }

    /**
     * What a simulated capture is of.
     *
     * @param capture the capture
     * @return its label
     */
    public static CaptureLabel label(SimulatedCapture capture) {
        SimulatedCapture.Label label = capture.label();
        return new CaptureLabel(
                label.file(),
                label.point(),
                label.axis(),
                mount(label.mount()),
                regime(label.regime()),
                label.condition());
    }

    private static CaptureDraft draft(SimulatedCapture capture, Vehicle vehicle) {
        CaptureDraft draft =
                CaptureDraft.of(label(capture), signal(capture, vehicle))
                        .encodedAs(encoding(capture), capture.recorder().scaleMps2());
        return capture.speed() instanceof SpeedRecord.Tach tach
                ? draft.markedOn(tach.pulley())
                : draft;
    }

    private static WavEncoding encoding(SimulatedCapture capture) {
        return switch (capture.recorder().format()) {
            case PCM_16 -> WavEncoding.PCM_16;
            case PCM_24 -> WavEncoding.PCM_24;
            case FLOAT_32 -> WavEncoding.FLOAT_32;
        };
    }

    private static Mount mount(String word) {
        return Arrays.stream(Mount.values())
                .filter(m -> m.word().equals(word))
                .findFirst()
                .orElseThrow(
                        () -> new IllegalArgumentException("mount=" + word + ", need a known one"));
    }

    private static Regime regime(SimulatedCapture.Regime regime) {
        return switch (regime) {
            case IDLE -> Regime.IDLE;
            case HOLD -> Regime.HOLD;
            case SWEEP -> Regime.SWEEP;
        };
    }

    private static SpeedSource speed(SpeedRecord record, Vehicle vehicle) {
        if (record instanceof SpeedRecord.Tach tach) {
            double crankMm = vehicle.crankPulley().orElseThrow().diameterMm();
            double markedMm = vehicle.pulley(tach.pulley()).orElseThrow().diameterMm();
            return new TachPulses(tach.timesS(), tach.pulsesPerTurn(), crankMm / markedMm);
        }
        if (record instanceof SpeedRecord.Readings r) {
            return new SpeedReadings(r.timesS(), r.speedsRpm(), r.kind() == SpeedRecord.Kind.OBD);
        }
        return new NoSpeed();
    }
}
