package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import tickover.drive.DriveModel;
import tickover.drive.Role;

/**
 * Finds for every suspect what the captures of a visit say of it.
 *
 * <p>Loud is not guilty: no clue is a loudness alone. A rhythm is held against rhythms that no part
 * makes, a place against the other places, a load state against the other.
 */
final class ClueFinder {
    private static final int LINE_HARMONICS = 4;

    /** Depth of a rhythm that is not there, dB. */
    private static final double NO_DEPTH_DB = -50;

    private static final int TRAIN_HARMONICS = 6;

    /** Multiples of the belt's turn that a damaged belt makes one and all. */
    private static final int BELT_MULTIPLES = 8;

    /** Scores up to here count one way, above it another; in spreads. */
    private static final double CLEAR_SPREADS = 6;

    private static final double MOST_SPREADS = 30;

    /**
     * The shake of a sound pulley, dB re 1 m/s² falling with frequency squared; the middle of what
     * the tuning visits show.
     */
    private static final double USUAL_SHAKE_DB = -80;

    private static final double LEVEL_UNIT_DB = 20;
    private static final double MOST_LEVEL = 2;

    /** Differences beyond this say no more, dB. */
    private static final double MOST_DB = 15;

    private final DriveModel drive;
    private final Comparison comparison;

    ClueFinder(DriveModel drive, List<CaptureMeasurement> captures) {
        this.drive = drive;
        this.comparison = new Comparison(captures);
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
            case BEARING_LINE, UNKNOWN_BEARING ->
                    rhythmic(
                            s,
                            CaptureMeasurement::lineScan,
                            (c, f) -> Quantities.envelopeDb(c, f, LINE_HARMONICS),
                            (c, f) -> 0);
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
            case INJECTOR_TICK, VALVE_TICK -> ticking(s);
        };
    }

    /** A quantity of one capture at one base order. */
    private interface AtOrder {
        double of(CaptureMeasurement capture, double orders);
    }

    private SuspectClues rhythmic(
            Suspect s,
            java.util.function.Function<CaptureMeasurement, PatternScan> scan,
            AtOrder levelDb,
            AtOrder modulation) {
        List<CaptureMeasurement> own = comparison.ordinaryAt(s.ownPoint());
        List<CaptureMeasurement> all = comparison.ordinary();
        List<CaptureMeasurement> where = own.isEmpty() ? all : own;
        if (where.isEmpty()) {
            return unheard(s);
        }
        Found found = search(s.rhythm(), where.stream().map(scan).toList());
        double f = found.orders;
        double elsewhere = pooled(all.stream().map(scan).toList(), f);
        ToDoubleFunction<CaptureMeasurement> level = c -> levelDb.of(c, f);
        double modulated =
                where.stream()
                        .mapToDouble(c -> modulationAt(s, modulation, c, f))
                        .average()
                        .orElse(0);
        Place place = place(s.ownPoint(), level);
        double contrast = contrastDb(s, level);
        double beltOff = beltOffDb(level);
        double strongest = where.stream().mapToDouble(level).average().orElse(0);
        // Where there is no rhythm, its place and its change mean nothing.
        double there = Math.max(0, Math.min(1, found.spreads / CLEAR_SPREADS));
        Clues clues = new Clues();
        clues.set(Clue.PRIOR, 1);
        clues.set(Clue.RHYTHM, Math.max(-1, Math.min(1, found.spreads / CLEAR_SPREADS)));
        clues.set(Clue.RHYTHM_STRONG, beyondClear(found.spreads));
        clues.set(Clue.RHYTHM_ELSEWHERE, Math.max(-1, Math.min(2, elsewhere / CLEAR_SPREADS)));
        clues.set(Clue.MODULATION, there * modulated);
        clues.set(Clue.PLACE, there * clipDb(place.ownAboveDb) / 10);
        clues.set(Clue.OUT_OF_REACH, isOutOfReach(s, own) ? 1 : 0);
        clues.set(Clue.CONTRAST, there * clipDb(contrast) / 10);
        clues.set(Clue.BELT_OFF, there * clipDb(beltOff) / 10);
        clues.set(Clue.LEVEL, levelClue(s, strongest));
        clues.set(
                Clue.DEPTH,
                where.stream().mapToDouble(c -> depthDb(c, f)).average().orElse(NO_DEPTH_DB) / 10);
        clues.set(Clue.MISFIT, misfit(s.rhythm(), f));
        return new SuspectClues(
                s,
                clues,
                f,
                rhythmDb(found.spreads),
                place.ownAboveDb,
                place.rival,
                contrast,
                beltOff,
                0);
    }

    /** Without a single ordinary capture nothing speaks for or against a suspect. */
    private static SuspectClues unheard(Suspect s) {
        Clues clues = new Clues().set(Clue.PRIOR, 1).set(Clue.OUT_OF_REACH, 1);
        return new SuspectClues(s, clues, s.rhythm().centreOrders(), 0, 0, "", 0, 0, 0);
    }

    /** Not recorded at its own point; for a belt, whose place is everywhere, of unknown length. */
    private static boolean isOutOfReach(Suspect s, List<CaptureMeasurement> own) {
        return s.group() == FaultGroup.BELT
                ? s.rhythm().spreadRatio() > Suspects.BELT_SPREAD_RATIO
                : own.isEmpty();
    }

    private static double modulationAt(
            Suspect s, AtOrder modulation, CaptureMeasurement c, double f) {
        if (s.rhythm().sidebandOrders().isEmpty()) {
            return modulation.of(c, f);
        }
        double best = 0;
        for (double apart : s.rhythm().sidebandOrders()) {
            // The part's own speed is off by the same share as its line.
            double scaled = apart * f / s.rhythm().centreOrders();
            double usable = s.group() == FaultGroup.UNKNOWN_BEARING ? apart : scaled;
            best = Math.max(best, Quantities.sidebandScore(c, f, usable));
        }
        return best;
    }

    private record Found(double orders, double spreads) {}

    /**
     * Looks for the base order that fits best, weighed by how far it is from where it should be.
     */
    private static Found search(Suspect.Rhythm rhythm, List<PatternScan> scans) {
        int from = PatternScan.indexOf(rhythm.fromOrders());
        int to = PatternScan.indexOf(rhythm.toOrders());
        double best = Double.NEGATIVE_INFINITY;
        double bestScore = 0;
        double bestOrder = rhythm.centreOrders();
        for (int i = from; i <= to; i++) {
            double order = PatternScan.orderAt(i);
            double z = pooled(scans, order);
            double weighed = z - 0.5 * misfitSquared(rhythm, order);
            if (weighed > best) {
                best = weighed;
                bestScore = z;
                bestOrder = order;
            }
        }
        double looks = Math.max(1, (to - from + 1) / 5.0);
        return new Found(bestOrder, bestScore - Math.sqrt(2 * Math.log(looks)));
    }

    /** Score of several captures together, in spreads: the mean times the root of their number. */
    private static double pooled(List<PatternScan> scans, double order) {
        double sum = 0;
        for (PatternScan scan : scans) {
            sum += Math.min(MOST_SPREADS, scan.at(order));
        }
        return scans.isEmpty() ? 0 : sum / Math.sqrt(scans.size());
    }

    private static double misfitSquared(Suspect.Rhythm rhythm, double order) {
        double off = Math.log(order / rhythm.centreOrders()) / rhythm.spreadRatio();
        return off * off;
    }

    private static double misfit(Suspect.Rhythm rhythm, double order) {
        return Math.min(2, 0.3 * misfitSquared(rhythm, order));
    }

    private SuspectClues ticking(Suspect s) {
        List<CaptureMeasurement> own = comparison.ordinaryAt(s.ownPoint());
        List<CaptureMeasurement> all = comparison.ordinary();
        List<CaptureMeasurement> where = own.isEmpty() ? all : own;
        if (where.isEmpty()) {
            return unheard(s);
        }
        ToDoubleFunction<CaptureMeasurement> level = Quantities::tickDb;
        double odd = where.stream().mapToDouble(Quantities::oddDb).average().orElse(0);
        // Beside an injector its own tick is always the odd one out; elsewhere it is not.
        double everywhere =
                all.stream()
                        .filter(c -> !isBesideATick(c.label().point()))
                        .mapToDouble(Quantities::oddDb)
                        .average()
                        .orElse(odd);
        Place place = place(s.ownPoint(), level);
        double beltOff = beltOffDb(level);
        double injectorOff = injectorOffDb(s, level);
        Clues clues = new Clues();
        clues.set(Clue.PRIOR, 1);
        clues.set(Clue.RHYTHM, Math.max(-1, Math.min(1, odd / 10)));
        clues.set(Clue.RHYTHM_STRONG, Math.max(0, Math.min(1, odd / 10 - 1)));
        clues.set(Clue.RHYTHM_ELSEWHERE, Math.max(-1, Math.min(2, everywhere / 10)));
        clues.set(Clue.PLACE, clipDb(place.ownAboveDb) / 10);
        clues.set(Clue.OUT_OF_REACH, own.isEmpty() ? 1 : 0);
        clues.set(Clue.BELT_OFF, clipDb(beltOff) / 10);
        clues.set(Clue.INJECTOR_OFF, clipDb(injectorOff) / 10);
        clues.set(Clue.LEVEL, levelClue(s, where.stream().mapToDouble(level).average().orElse(0)));
        return new SuspectClues(
                s,
                clues,
                s.rhythm().centreOrders(),
                odd,
                place.ownAboveDb,
                place.rival,
                0,
                beltOff,
                injectorOff);
    }

    private static boolean isBesideATick(String point) {
        return point.startsWith("injector-") || point.equals("valve-cover");
    }

    private record Place(double ownAboveDb, String rival) {}

    private Place place(String ownPoint, ToDoubleFunction<CaptureMeasurement> levelDb) {
        Map<String, Double> levels = comparison.levelByPointDb(levelDb);
        Double own = levels.remove(ownPoint);
        String rival = "";
        double strongest = Double.NEGATIVE_INFINITY;
        for (Map.Entry<String, Double> e : levels.entrySet()) {
            if (e.getValue() > strongest) {
                strongest = e.getValue();
                rival = e.getKey();
            }
        }
        return own == null || rival.isEmpty()
                ? new Place(0, rival)
                : new Place(own - strongest, rival);
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

    private double beltOffDb(ToDoubleFunction<CaptureMeasurement> levelDb) {
        return comparison
                .differenceDb(
                        l -> l.condition().beltOn(),
                        l -> !l.condition().beltOn(),
                        l -> l.condition().withBeltOn(true).toString(),
                        levelDb)
                .orElse(0);
    }

    private double injectorOffDb(Suspect s, ToDoubleFunction<CaptureMeasurement> levelDb) {
        if (s.group() != FaultGroup.INJECTOR_TICK) {
            return 0;
        }
        int number = Integer.parseInt(s.component().substring("injector-".length()));
        return comparison
                .differenceDb(
                        l -> l.condition().injectorOff().isEmpty(),
                        l -> l.condition().injectorOff().orElse(0) == number,
                        l -> l.condition().withInjectorOff(number).toString(),
                        levelDb)
                .orElse(0);
    }

    private static double depthDb(CaptureMeasurement c, double orders) {
        return Math.max(NO_DEPTH_DB, Quantities.depthDb(c, orders, LINE_HARMONICS));
    }

    private static double rhythmDb(double spreads) {
        return 20 * Math.log10(1 + Math.max(0, spreads));
    }

    private static double beyondClear(double spreads) {
        return Math.max(0, Math.min(MOST_SPREADS, spreads) - CLEAR_SPREADS) / CLEAR_SPREADS;
    }

    /** Level against what is usual for its kind, within bounds: a strange scale must not decide. */
    private static double levelClue(Suspect s, double levelDb) {
        double usualDb = s.group() == FaultGroup.ECCENTRIC ? USUAL_SHAKE_DB : 0;
        double units = (levelDb - usualDb) / LEVEL_UNIT_DB;
        return Math.max(-MOST_LEVEL, Math.min(MOST_LEVEL, units));
    }

    private static double clipDb(double valueDb) {
        return Math.max(-MOST_DB, Math.min(MOST_DB, valueDb));
    }
}
