package tickover.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.PartLine;
import tickover.drive.PartWords;
import tickover.drive.Role;
import tickover.drive.Vehicle;
import tickover.order.LineTracks;
import tickover.order.SynchronousAverage;
import tickover.order.SynchronousAverages;
import tickover.order.TrackedLine;
import tickover.order.VoldKalman;

/**
 * Takes one part's sound out of a capture.
 *
 * <p>Orders: what repeats with the engine's working cycle is taken out first; then every harmonic
 * of the part's turn, at the speed that the capture shows, is followed by the {@link VoldKalman}
 * filter, level and all. Harmonics that fall on the engine's own are left out. Ringing: the band in
 * which the part's rhythm stands best; its carrier stays as it was recorded, its envelope is what
 * the filter follows of the squared envelope at the rhythm and its harmonics, so that what rings in
 * another rhythm is gone.
 */
public final class PartListening {
    /** What of a part to listen to. */
    public enum How {
        /** Tones at whole multiples of its turn. */
        ORDERS,
        /** What rings in the rhythm of its bearing, or of its turn. */
        RINGING,
        /** Both together. */
        BOTH
    }

    private static final double MOST_ORDERS = 120;
    private static final int MOST_HARMONICS = 40;

    /** A harmonic is followed if its mean over the turns is this many times its error. */
    private static final double HEARD_ERRORS = 3;

    /** Width of the filter around an order: a share of the distance between harmonics. */
    private static final double ORDER_WIDTH_RATIO = 0.06;

    private static final int MOST_NAMED = 6;

    /** Closer to an engine line than this many turns over the record parts nothing. */
    private static final double GUARD_BINS = 2;

    private final Vehicle vehicle;
    private final DriveModel drive;
    private final TrackedCapture tracked;
    private final int channel;
    private final String part;
    private final String wantedKind;
    private String heardKind = "";
    private final List<String> notes = new ArrayList<>();

    private PartListening(
            Vehicle vehicle, TrackedCapture tracked, int channel, String part, String wantedKind) {
        this.wantedKind = wantedKind;
        this.vehicle = vehicle;
        this.drive = DriveModel.of(vehicle);
        this.tracked = tracked;
        this.channel = channel;
        this.part = part;
    }

    /**
     * Takes a part's sound out of a capture.
     *
     * @param vehicle the visit's vehicle
     * @param tracked one of its captures
     * @param channel 0-based
     * @param part a pulley of the vehicle, or {@code engine} for all that repeats with its cycle
     * @param how what to listen to; the engine has orders alone
     * @return the sound, as long as the capture
     * @throws IllegalArgumentException if the vehicle has no such part
     * @throws NotHeardException if nothing of the part is heard
     */
    public static PartAudio of(
            Vehicle vehicle, TrackedCapture tracked, int channel, String part, How how) {
        return of(vehicle, tracked, channel, part, how, "");
    }

    /**
     * Takes a part's sound out of a capture, its ringing in a chosen rhythm: that of another
     * capture's sound ({@link PartAudio#rhythm}), so that like is held against like.
     *
     * @param vehicle the visit's vehicle
     * @param tracked one of its captures
     * @param channel 0-based
     * @param part a pulley of the vehicle, or {@code engine} for all that repeats with its cycle
     * @param how what to listen to; the engine has orders alone
     * @param kind kind of line, such as {@code bearing-outer-ring} or {@code turn}; empty for the
     *     one that stands out most
     * @return the sound, as long as the capture
     * @throws IllegalArgumentException if the vehicle has no such part, or that no such line
     * @throws NotHeardException if nothing of the part is heard
     */
    public static PartAudio of(
            Vehicle vehicle,
            TrackedCapture tracked,
            int channel,
            String part,
            How how,
            String kind) {
        Objects.requireNonNull(vehicle, "vehicle");
        Objects.requireNonNull(tracked, "tracked");
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(how, "how");
        Objects.requireNonNull(kind, "kind");
        return new PartListening(vehicle, tracked, channel, meant(vehicle, part), kind).take(how);
    }

    /** The part as the vehicle's file writes it; the words themselves if it has no such part. */
    private static String meant(Vehicle vehicle, String part) {
        List<String> known = new ArrayList<>(List.of(PartLine.ENGINE));
        vehicle.pulleys().forEach(p -> known.add(p.name()));
        return PartWords.find(part, known).orElse(part);
    }

    private PartAudio take(How how) {
        double[] x = tracked.signal().accelMps2(channel);
        if (part.equals(PartLine.ENGINE)) {
            notes.add("What repeats with every working cycle of the engine.");
            return audio(averages(x, vehicle.engine().cycleOrder()).signal(0));
        }
        DrivePart pulley =
                drive.part(part)
                        .orElseThrow(
                                () ->
                                        new IllegalArgumentException(
                                                "the vehicle has no pulley '"
                                                        + part
                                                        + "'; it has engine, "
                                                        + drive.parts().stream()
                                                                .map(DrivePart::name)
                                                                .collect(
                                                                        Collectors.joining(", "))));
        double[] sum = new double[x.length];
        boolean heard = false;
        if (how != How.RINGING) {
            Optional<double[]> orders = orders(x, pulley);
            orders.ifPresent(y -> add(sum, y));
            heard |= orders.isPresent();
        }
        if (how != How.ORDERS) {
            PartRinging rings = new PartRinging(vehicle, tracked, channel, pulley);
            Optional<double[]> ringing = rings.in(wantedKind);
            heardKind = rings.kind();
            notes.addAll(rings.notes());
            ringing.ifPresent(y -> add(sum, y));
            heard |= ringing.isPresent();
        }
        if (!heard) {
            throw new NotHeardException(String.join(" ", notes));
        }
        return audio(sum);
    }

    private PartAudio audio(double[] sound) {
        return new PartAudio(part, tracked.signal().sampleRateHz(), sound, heardKind, notes);
    }

    private static void add(double[] to, double[] what) {
        for (int i = 0; i < to.length; i++) {
            to[i] += what[i];
        }
    }

    private double highestOrders() {
        return Math.min(MOST_ORDERS, tracked.highestOrders());
    }

    private SynchronousAverages averages(double[] x, double... turns) {
        return SynchronousAverages.of(
                x, tracked.signal().sampleRateHz(), tracked.angle(), highestOrders(), turns);
    }

    private double meanHz() {
        return PartRinging.meanHz(tracked.angle());
    }

    private Optional<double[]> orders(double[] x, DrivePart pulley) {
        double cycle = vehicle.engine().cycleOrder();
        boolean isCrank = pulley.role() == Role.CRANK;
        double ratio = 1;
        List<Integer> engines = new ArrayList<>();
        if (!isCrank) {
            PartAverages found =
                    PartAverages.of(vehicle, tracked, channel, highestOrders(), List.of(part));
            if (!found.unheard().isEmpty()) {
                PartAverages.Unheard u = found.unheard().get(0);
                notes.add(
                        String.format(
                                Locale.ROOT,
                                "Nothing of the %s is heard once per turn (%.3f to %.3f per crank"
                                        + " turn were looked at).",
                                part,
                                u.fromTurns(),
                                u.toTurns()));
                return Optional.empty();
            }
            ratio = found.parts().get(1).average().turnsPerCrankTurn();
        }
        // Averaged together, so that neither leaks into the other, however short the capture.
        SynchronousAverages together = isCrank ? averages(x, 1) : averages(x, cycle, ratio);
        double[] engine = isCrank ? new double[x.length] : together.signal(0);
        SynchronousAverage own = together.averages().get(isCrank ? 0 : 1);
        double[] left = new double[x.length];
        for (int i = 0; i < left.length; i++) {
            left[i] = x[i] - engine[i];
        }
        double guard = GUARD_BINS / (tracked.angle().endTurns() - tracked.angle().startTurns());
        List<TrackedLine> lines = new ArrayList<>();
        for (int k = 1; k <= own.harmonics(); k++) {
            double order = k * ratio;
            double nearest = cycle * Math.rint(order / cycle);
            if (!isCrank && Math.abs(order - nearest) < guard) {
                engines.add(k);
            } else if (own.rms(k) > HEARD_ERRORS * own.errorRms(k)
                    && lines.size() < MOST_HARMONICS) {
                lines.add(TrackedLine.orderWithinOrders(order, ORDER_WIDTH_RATIO * ratio));
            }
        }
        if (lines.isEmpty()) {
            notes.add(
                    "No multiple of the "
                            + part
                            + "'s turn stands above the scatter from turn to turn.");
            return Optional.empty();
        }
        notes.add(
                String.format(
                        Locale.ROOT,
                        "Orders: %d harmonics of its turn, %.4f per crank turn, %.0f to %.0f Hz.",
                        lines.size(),
                        ratio,
                        lines.get(0).order() * meanHz(),
                        lines.get(lines.size() - 1).order() * meanHz()));
        if (!engines.isEmpty()) {
            notes.add(
                    "Left out, because the engine makes the same: multiples "
                            + engines.stream()
                                    .limit(MOST_NAMED)
                                    .map(String::valueOf)
                                    .collect(Collectors.joining(", "))
                            + (engines.size() > MOST_NAMED ? " and more." : "."));
        }
        LineTracks tracks =
                VoldKalman.track(
                        left,
                        tracked.signal().sampleRateHz(),
                        tracked.angle(),
                        new VoldKalman.Spec(2, lines));
        double[] rest = tracks.residual();
        double[] sound = new double[x.length];
        for (int i = 0; i < sound.length; i++) {
            sound[i] = left[i] - rest[i];
        }
        return Optional.of(sound);
    }
}
