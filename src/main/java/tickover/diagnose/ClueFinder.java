package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import tickover.diagnose.LineMap.Comb;
import tickover.drive.DriveModel;
import tickover.drive.Role;

/**
 * Finds for every suspect what the captures of a visit say of it.
 *
 * <p>Loud is not guilty: no clue is a loudness alone. A rhythm is held against rhythms that no part
 * makes, a place against the other places, a load state against the other.
 */
final class ClueFinder {
    static final int LINE_HARMONICS = 4;

    /** Depth of a rhythm that is not there, dB. */
    private static final double NO_DEPTH_DB = -50;

    private static final int TRAIN_HARMONICS = 6;

    /** Multiples of the belt's turn that a damaged belt makes one and all. */
    private static final int BELT_MULTIPLES = 8;

    /** A rhythm with these odds is clear, one with those is taken to be there, nats. */
    private static final double CLEAR_NATS = 12;

    private static final double THERE_NATS = 3;

    /** So many more make it sure; what is not sure is strongest somewhere by chance. */
    private static final double SURE_NATS = 6;

    /** At a point where a rhythm says more than this it is heard. */
    static final double HEARD_NATS = 2;

    private static final double MOST_AGAINST_NATS = 4;
    private static final double MOST_FOR_NATS = 2;
    private static final double SIDEBAND_NATS = 8;
    private static final double USUAL_DEPTH_DB = -30;

    /**
     * The shake of a sound pulley, dB re 1 m/s² falling with frequency squared; the middle of what
     * the tuning visits show.
     */
    private static final double USUAL_SHAKE_DB = -80;

    /** The same as it is felt, dB re 1 m/s². */
    private static final double USUAL_ACCELERATION_DB = -32;

    private static final double LEVEL_UNIT_DB = 20;
    private static final double MOST_LEVEL = 2;

    /** What falls by so much with the belt off may be belt-driven or not, dB; judgement. */
    private static final double UNDECIDED_BELT_OFF_DB = 5;

    /** Differences beyond this say no more, dB. */
    private static final double MOST_DB = 15;

    private final DriveModel drive;
    private final Comparison comparison;
    private final PlaceOdds places;
    private final TickClues ticks;
    private final LineMap lines;
    private final LinePlaces linePlaces;

    ClueFinder(DriveModel drive, List<CaptureMeasurement> captures) {
        this.drive = drive;
        this.comparison = new Comparison(captures);
        this.places = new PlaceOdds(drive.vehicle());
        this.lines = new LineMap(comparison.ordinary());
        this.linePlaces = new LinePlaces(comparison.ordinary(), places);
        this.ticks = new TickClues(drive.vehicle().engine(), captures);
    }

    List<SuspectClues> find() {
        List<SuspectClues> out = new ArrayList<>();
        for (Suspect suspect : Suspects.of(drive)) {
            out.add(cluesOf(suspect));
        }
        return AmongParts.compare(out);
    }

    private SuspectClues cluesOf(Suspect s) {
        return switch (s.group()) {
            case BEARING_LINE, UNKNOWN_BEARING, ENGINE_BEARING ->
                    rhythmic(
                            s,
                            CaptureMeasurement::lineScan,
                            (c, f) -> Quantities.envelopeDb(c, f, LINE_HARMONICS),
                            (c, f) -> sidebands(s, c, f));
            case ROUGH ->
                    rhythmic(
                            s,
                            CaptureMeasurement::lineScan,
                            (c, f) -> Quantities.ringingDb(c),
                            (c, f) -> 0);
            case ECCENTRIC ->
                    rhythmic(
                            s,
                            CaptureMeasurement::motionScan,
                            Quantities::motionDb,
                            (c, f) -> Quantities.motionLines(c, 2 * f, 3 * f));
            case LOOSE ->
                    rhythmic(
                            s,
                            CaptureMeasurement::trainScan,
                            (c, f) -> Quantities.envelopeDb(c, f, TRAIN_HARMONICS),
                            Quantities::oddMultiples);
            case BELT ->
                    rhythmic(
                            s,
                            CaptureMeasurement::trainScan,
                            (c, f) -> Quantities.envelopeDb(c, f, TRAIN_HARMONICS),
                            (c, f) -> Quantities.coverage(c, f, BELT_MULTIPLES));
            case INJECTOR_TICK, VALVE_TICK, ENGINE_KNOCK -> ticks.of(s);
        };
    }

    /** How sure all captures are of a suspect's rhythm, and where it stands. */
    private RhythmSearch search(Suspect s, Function<CaptureMeasurement, RhythmScan> scan) {
        return switch (s.group()) {
            case ECCENTRIC -> RhythmSearch.of(s, comparison.ordinary(), scan);
            case LOOSE, BELT -> RhythmSearch.of(s, lines.combs(s.ownPoint(), Comb.KNOCKS));
            case ROUGH -> RhythmSearch.of(s, lines.combs(s.ownPoint(), Comb.SWELL));
            default -> RhythmSearch.ofStrikes(s, lines, linePlaces);
        };
    }

    /** A quantity of one capture at one base order. */
    private interface AtOrder {
        double of(CaptureMeasurement capture, double orders);
    }

    private SuspectClues rhythmic(
            Suspect s,
            Function<CaptureMeasurement, RhythmScan> scan,
            AtOrder levelDb,
            AtOrder modulation) {
        List<CaptureMeasurement> own = comparison.ordinaryAt(s.ownPoint());
        List<CaptureMeasurement> all = comparison.ordinary();
        List<CaptureMeasurement> where = own.isEmpty() ? all : own;
        if (where.isEmpty()) {
            return unheard(s);
        }
        boolean shake = s.group() == FaultGroup.ECCENTRIC;
        boolean isLevel = shake || s.group() == FaultGroup.ROUGH;
        RhythmSearch found = search(s, scan);
        int at = found.at();
        double f = RhythmScan.orderAt(at);
        // Where little speaks for a rhythm in this part, its place and its change mean little.
        double there = clip(found.nats() / THERE_NATS, 0, 1);
        double sure = clip((found.nats() - THERE_NATS) / SURE_NATS, 0, 1);
        ToDoubleFunction<CaptureMeasurement> level = c -> levelDb.of(c, f);
        Comparison.Place place = comparison.place(s.ownPoint(), level);
        double contrast = contrastDb(s, level);
        OptionalDouble beltOff = comparison.beltOffDb(level);
        double placeNats = clip(placeNats(s, scan, level, at), -MOST_AGAINST_NATS, MOST_FOR_NATS);
        Clues clues = new Clues();
        clues.set(Clue.PRIOR, 1);
        clues.set(Clue.MODULATION, mean(where, c -> modulation.of(c, f)));
        clues.set(Clue.PLACE, (isLevel ? 1 : sure) * placeNats / 2);
        clues.set(Clue.OUT_OF_REACH, isOutOfReach(s, own) ? 1 : 0);
        clues.set(Clue.CONTRAST, there * clipDb(contrast) / 10);
        clues.set(Clue.BELT_OFF, there * beltOffClue(beltOff));
        if (isLevel) {
            clues.set(Clue.LEVEL, levelClue(s, mean(where, level)));
        }
        if (!s.group().isWide()) {
            clues.set(Clue.MISFIT, Math.min(2, 0.3 * RhythmSearch.misfitSquared(s.rhythm(), f)));
        }
        if (shake) {
            double shakeDb = mean(where, c -> Quantities.shakeDb(c, f));
            clues.set(Clue.SHAKE, clip((shakeDb - USUAL_ACCELERATION_DB) / LEVEL_UNIT_DB, -2, 2));
        } else {
            clues.set(Clue.COMB, clip(found.nats() / CLEAR_NATS, -0.25, 3));
            double depthDb = mean(where, c -> depthDb(c, f));
            clues.set(Clue.DEPTH, (depthDb - USUAL_DEPTH_DB) / 10);
        }
        if (s.group() == FaultGroup.ROUGH) {
            clues.set(Clue.AMONG_PARTS, clip(aboveOthersDb(own) / 10, -2, 2));
        }
        return new SuspectClues(
                s,
                clues,
                f,
                Reasons.TO_DB * found.heardNats(),
                place.ownAboveDb(),
                place.rivalPoint(),
                contrast,
                beltOff.orElse(0),
                0);
    }

    /** How far the noise at a point stands above the median other point, in the best band, dB. */
    private double aboveOthersDb(List<CaptureMeasurement> own) {
        List<CaptureMeasurement> others =
                comparison.ordinary().stream()
                        .filter(c -> c.label().regime() != Regime.SWEEP && !own.contains(c))
                        .toList();
        double best = Double.NEGATIVE_INFINITY;
        for (CaptureMeasurement c : own) {
            double[] here = Quantities.quietDb(c);
            for (int band = 0; band < here.length; band++) {
                int b = band;
                double[] there =
                        others.stream()
                                .filter(o -> o.label().regime() == c.label().regime())
                                .map(Quantities::quietDb)
                                .filter(q -> q.length == here.length)
                                .mapToDouble(q -> q[b])
                                .sorted()
                                .toArray();
                if (there.length > 0) {
                    best = Math.max(best, here[b] - there[there.length / 2]);
                }
            }
        }
        return Double.isFinite(best) ? best : 0;
    }

    private static double sum(
            List<CaptureMeasurement> captures,
            Function<CaptureMeasurement, RhythmScan> scan,
            int at) {
        return captures.stream().mapToDouble(c -> scan.apply(c).around(at)).sum();
    }

    private static double mean(
            List<CaptureMeasurement> captures, ToDoubleFunction<CaptureMeasurement> quantity) {
        return captures.stream().mapToDouble(quantity).average().orElse(0);
    }

    private double placeNats(
            Suspect s,
            Function<CaptureMeasurement, RhythmScan> scan,
            ToDoubleFunction<CaptureMeasurement> levelDb,
            int at) {
        Map<String, Double> levels = comparison.levelByPointDb(levelDb);
        Map<String, PlaceOdds.Heard> heard = new LinkedHashMap<>();
        levels.forEach(
                (point, level) -> {
                    boolean isHeard =
                            s.group() == FaultGroup.ROUGH
                                    || sum(comparison.ordinaryAt(point), scan, at) > HEARD_NATS;
                    heard.put(point, new PlaceOdds.Heard(level, isHeard));
                });
        return places.nats(s.ownPoint(), heard);
    }

    /** Without a single ordinary capture nothing speaks for or against a suspect. */
    static SuspectClues unheard(Suspect s) {
        Clues clues = new Clues().set(Clue.PRIOR, 1).set(Clue.OUT_OF_REACH, 1);
        return new SuspectClues(s, clues, s.rhythm().centreOrders(), 0, 0, "", 0, 0, 0);
    }

    /** Not recorded at its own point; for a belt, whose place is everywhere, of unknown length. */
    private static boolean isOutOfReach(Suspect s, List<CaptureMeasurement> own) {
        return s.group() == FaultGroup.BELT
                ? s.rhythm().spreadRatio() > Suspects.BELT_SPREAD_RATIO
                : own.isEmpty();
    }

    /** Sidebands one turn or one cage turn away, in tens of nats or so. */
    private static double sidebands(Suspect s, CaptureMeasurement c, double f) {
        double sum = 0;
        for (double apart : s.rhythm().sidebandOrders()) {
            // The part's own speed is off by the same share as its line.
            double scaled = apart * f / s.rhythm().centreOrders();
            double usable = s.group().isWide() ? apart : scaled;
            sum += Quantities.sidebandNats(c, f, usable);
        }
        return clip(sum / SIDEBAND_NATS, -1, 2.5);
    }

    private double contrastDb(Suspect s, ToDoubleFunction<CaptureMeasurement> levelDb) {
        return loadOf(s.component())
                .map(
                        load ->
                                comparison
                                        .differenceDb(
                                                l -> load.isOn(l.condition()),
                                                l -> !load.isOn(l.condition()),
                                                l -> load.off(l.condition()).toString(),
                                                levelDb)
                                        .orElse(0))
                .orElse(0.0);
    }

    private Optional<SwitchedLoad> loadOf(String component) {
        Role role = drive.vehicle().pulley(component).map(p -> p.role()).orElse(Role.OTHER);
        return Arrays.stream(SwitchedLoad.values()).filter(l -> l.role() == role).findFirst();
    }

    private static double depthDb(CaptureMeasurement c, double orders) {
        return Math.max(NO_DEPTH_DB, Quantities.depthDb(c, orders, LINE_HARMONICS));
    }

    static double clip(double value, double least, double most) {
        return Math.max(least, Math.min(most, value));
    }

    /** Level against what is usual for its kind, within bounds: a strange scale must not decide. */
    static double levelClue(Suspect s, double levelDb) {
        double usualDb = s.group() == FaultGroup.ECCENTRIC ? USUAL_SHAKE_DB : 0;
        double units = (levelDb - usualDb) / LEVEL_UNIT_DB;
        return Math.max(-MOST_LEVEL, Math.min(MOST_LEVEL, units));
    }

    /**
     * What a run without the belt says for what is belt-driven; 0 without one. What stays as loud
     * speaks against it, not merely less for it.
     */
    static double beltOffClue(OptionalDouble weakerDb) {
        return weakerDb.isPresent()
                ? (clipDb(weakerDb.getAsDouble()) - UNDECIDED_BELT_OFF_DB) / 10
                : 0;
    }

    static double clipDb(double valueDb) {
        return Math.max(-MOST_DB, Math.min(MOST_DB, valueDb));
    }
}
