package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tickover.drive.Ring;
import tickover.order.ShaftAngle;

/**
 * Judges a removed pulley or a bearing that is turned alone on a bench. The class to read first
 * about bearings: it takes a record with its speed ({@link BenchTake}), computes {@link
 * EnvelopeOrders} of all channels, looks for the {@link BearingSigns}, lets a judge weigh them, and
 * asks {@link BenchFindings} whether the part runs true, has play or is rough.
 */
public final class Bench {
    /** Room for the third harmonic of the fastest pattern and for what chance makes around it. */
    private static final double MAX_ORDER = 40;

    /**
     * Speed error that may be left where twelve shaft harmonics or a tach show the speed: a bin
     * over twelve, half of it again for drift. The shaft's own lines are neutral within it, and no
     * wider: a 6203's balls strike at 3.99 per turn.
     */
    private static final double KNOWN_SPEED_ERROR_RATIO = 0.0005;

    /** The same where the speed was taken on trust. */
    private static final double GIVEN_SPEED_ERROR_RATIO = 0.003;

    /** So many times the fastest pattern rate must fit into a band, for two of its harmonics. */
    private static final double BAND_PER_RATE = 2.5;

    /** Fewer turns than this are judged, but with a note. */
    private static final int ENOUGH_TURNS = 100;

    /** Levels grow with speed; further apart than this they are not held against each other. */
    private static final double LIKE_SPEED_RATIO = 0.05;

    /** Evidence of its strikes from which a ball's spot is heard itself. */
    private static final double STRIKES_HEARD_NATS = 3;

    private final BenchTake take;
    private final List<BenchTake> goods;
    private final List<String> notes = new ArrayList<>();

    private Bench(BenchTake take, List<BenchTake> goods) {
        this.take = Objects.requireNonNull(take, "take");
        this.goods = List.copyOf(goods);
    }

    /**
     * Judges a record at steady speed that is roughly known.
     *
     * @param record the record
     * @param givenRpm speed, rpm, within 2.5 % of the truth; it is sharpened from the record
     * @return the verdict and what it rests on
     * @throws IllegalArgumentException if the record is too short or too slowly sampled
     */
    public static BenchResult atSpeed(BenchRecord record, double givenRpm) {
        return judge(BenchTake.atSpeed(record, givenRpm), List.of());
    }

    /**
     * Judges a record with a tach. Samples before and after the known angle are left out.
     *
     * @param record the record
     * @param angle turns of the turning ring over time
     * @return the verdict and what it rests on
     * @throws IllegalArgumentException if the record is too short or too slowly sampled
     */
    public static BenchResult withTach(BenchRecord record, ShaftAngle angle) {
        return judge(BenchTake.withTach(record, angle), List.of());
    }

    /**
     * Judges a record, beside records of known-good parts of the same kind on the same bench.
     *
     * @param take the record and its speed
     * @param goods known-good records, perhaps none
     * @return the verdict and what it rests on
     * @throws IllegalArgumentException if a record is too short or too slowly sampled, or a
     *     known-good one has another number of channels
     */
    public static BenchResult judge(BenchTake take, List<BenchTake> goods) {
        return new Bench(take, goods).judge(BenchJudge.FITTED);
    }

    /** What was found, for another judge to weigh. */
    static BearingSigns signs(BenchRecord record, double givenRpm) {
        BenchTake take = BenchTake.atSpeed(record, givenRpm);
        return signs(take, spectra(take));
    }

    /** By which share the speed may still be wrong. */
    static double speedErrorRatio(BenchTake take) {
        return take.confirmed() ? KNOWN_SPEED_ERROR_RATIO : GIVEN_SPEED_ERROR_RATIO;
    }

    private static EnvelopeOrders spectra(BenchTake take) {
        double fastest =
                Math.max(take.orders().innerRaceOrder(), 2 * take.orders().ballSpinOrder());
        return EnvelopeOrders.ofChannels(
                take.record().channelsMps2(),
                take.record().sampleRateHz(),
                take.turnsAtS(),
                new EnvelopeOrders.Spec(
                        MAX_ORDER,
                        1,
                        speedErrorRatio(take),
                        1,
                        BAND_PER_RATE * fastest * take.meanHz()));
    }

    private static BearingSigns signs(BenchTake take, EnvelopeOrders spectra) {
        return BearingSigns.search(
                spectra,
                take.orders(),
                take.turning(),
                1,
                take.confirmed() ? CombTolerance.KNOWN_SPEED : CombTolerance.ROUGH_SPEED);
    }

    private BenchResult judge(BenchJudge judge) {
        EnvelopeOrders spectra = spectra(take);
        BearingSigns signs = signs(take, spectra);
        List<BenchTake> like = likeGoods();
        for (BenchTake good : like) {
            signs = BenchSisters.without(signs, signs(good, spectra(good)), notes);
        }
        List<BenchOdds> odds = judge.odds(signs, spectra.turns());
        BenchVerdict verdict = BenchJudge.verdict(odds);
        List<BenchDifference> differences =
                like.isEmpty() ? List.of() : BenchComparison.of(take, like);
        List<BenchFinding> findings = BenchFindings.of(take, like, differences, verdict);
        boolean rough =
                findings.stream()
                        .anyMatch(
                                f ->
                                        f.fault() == Fault.BEARING_ROUGH
                                                && f.state() != BenchFinding.State.NOT_SEEN);
        boolean ballByCageAlone =
                verdict == BenchVerdict.ROLLING_ELEMENT
                        && signs.ballSpin().evidenceNats() < STRIKES_HEARD_NATS;
        if (rough && (verdict == BenchVerdict.HEALTHY || ballByCageAlone)) {
            // No single spot, but not to be called sound either; nor a ball's, where ringing that
            // swells with the cage is all that speaks for one.
            verdict = BenchVerdict.UNCLEAR;
        }
        addNotes(spectra, differences);
        List<BenchPattern> patterns = new ArrayList<>();
        List<BenchLine> lines = new ArrayList<>();
        describe(BenchVerdict.OUTER_RING.word(), signs.outerRing(), patterns, lines);
        describe(BenchVerdict.INNER_RING.word(), signs.innerRing(), patterns, lines);
        describe(BenchVerdict.ROLLING_ELEMENT.word(), signs.ballSpin(), patterns, lines);
        describe(BenchVerdict.CAGE.word(), signs.cage(), patterns, lines);
        return new BenchResult(
                verdict,
                odds.get(0).probability(),
                odds,
                take.meanRpm(),
                take.confirmed(),
                patterns,
                lines,
                levels(),
                notes,
                findings,
                differences,
                spectrum(spectra, signs));
    }

    /** Known-good records at about the same speed; a note says so of others. */
    private List<BenchTake> likeGoods() {
        List<BenchTake> like = new ArrayList<>();
        for (BenchTake good : goods) {
            int own = take.record().channelsMps2().size();
            if (good.record().channelsMps2().size() != own) {
                throw new IllegalArgumentException(
                        "the known-good record has "
                                + good.record().channelsMps2().size()
                                + " channels and this one "
                                + own
                                + ", need as many");
            }
            if (Math.abs(good.meanHz() / take.meanHz() - 1) <= LIKE_SPEED_RATIO) {
                like.add(good);
            } else {
                notes.add(
                        "A known-good record turns at "
                                + Math.round(good.meanRpm())
                                + " rpm and this one at "
                                + Math.round(take.meanRpm())
                                + ": levels grow with speed, so it was left out; record it within"
                                + " 5 %.");
            }
        }
        return like;
    }

    private List<BenchLevel> levels() {
        List<BenchLevel> levels = new ArrayList<>();
        List<double[]> channels = take.record().channelsMps2();
        for (int c = 0; c < channels.size(); c++) {
            String suffix = c == 0 ? "" : "-" + channelName(c);
            for (BenchLevel level :
                    BenchLevels.of(
                            channels.get(c), take.record().sampleRateHz(), take.turnsAtS())) {
                levels.add(
                        new BenchLevel(
                                level.name() + suffix, level.value(), level.unit(), level.text()));
            }
        }
        return levels;
    }

    /**
     * Names a channel.
     *
     * @param channel 0-based
     * @return x, y, z
     */
    static String channelName(int channel) {
        return String.valueOf((char) ('x' + channel));
    }

    /** The spectrum of the band in which the clearest pattern stands best. */
    private static BenchSpectrum spectrum(EnvelopeOrders spectra, BearingSigns signs) {
        CombFinding clearest = signs.outerRing();
        for (CombFinding f : List.of(signs.innerRing(), signs.ballSpin(), signs.cage())) {
            clearest = f.evidenceNats() > clearest.evidenceNats() ? f : clearest;
        }
        EnvelopeBand shown = spectra.bands().get(0);
        for (EnvelopeBand band : spectra.bands()) {
            shown = band.edges().equals(clearest.band()) ? band : shown;
        }
        double[] db = new double[shown.bins()];
        for (int k = 0; k < db.length; k++) {
            // Anything below the surroundings is of no interest.
            db[k] = 10 * Math.log10(Math.max(1, shown.strength(k)));
        }
        return new BenchSpectrum(shown.edges(), spectra.resolutionOrders(), db);
    }

    private void describe(
            String fault, CombFinding found, List<BenchPattern> patterns, List<BenchLine> lines) {
        patterns.add(
                new BenchPattern(
                        fault,
                        found.order(),
                        found.deviationRatio(),
                        found.strengthDb(),
                        found.modulationRatio(),
                        found.patternRmsMps2(),
                        found.falseAlarmProbability(),
                        found.band()));
        for (CombLine line : found.lines()) {
            lines.add(
                    new BenchLine(
                            fault,
                            text(line),
                            line.order(),
                            line.order() * take.meanHz(),
                            line.strengthDb(),
                            line.modulationRatio()));
        }
    }

    private static String text(CombLine line) {
        String harmonic = "harmonic " + line.harmonic();
        return line.sideband() == 0
                ? harmonic
                : (line.sideband() < 0 ? "lower" : "upper") + " sideband of " + harmonic;
    }

    private void addNotes(EnvelopeOrders spectra, List<BenchDifference> differences) {
        if (take.source() == BenchTake.Speed.FOUND) {
            notes.add(
                    "The speed was found in the record alone; if "
                            + Math.round(take.meanRpm())
                            + " rpm cannot be right, give the speed or a tach. With play it may be"
                            + " two or three times that.");
        }
        if (!take.confirmed()) {
            notes.add(
                    "The record does not show the speed by itself, so the given speed was taken on"
                            + " trust; a tach makes the verdict surer.");
        }
        if (spectra.turns() < ENOUGH_TURNS) {
            notes.add(
                    "Only "
                            + Math.round(spectra.turns())
                            + " turns were recorded; ten seconds at 1800 rpm are 300 turns and show"
                            + " ball and cage faults better.");
        }
        if (!goods.isEmpty() && differences.isEmpty()) {
            notes.add(
                    "Nothing was held against a known-good record: at least 72 turns of like"
                            + " speed are needed on both sides.");
        } else if (differences.stream().anyMatch(d -> !d.coversTouches())) {
            notes.add(
                    "The intervals against the known-good part hold the scatter within the records"
                            + " alone; three known-good records tell what mounting and putting"
                            + " the probe down again do, which may well be 3 dB and more.");
        }
        if (!IsoBand.HIGH.fits(take.record().sampleRateHz())) {
            notes.add(
                    "The band from 1800 to 10000 Hz is left out: it takes more than 20000 samples"
                            + " a second.");
        }
        notes.add(isoNote());
    }

    private String isoNote() {
        if (!IsoBand.isItsSpeed(take.meanRpm())) {
            return "The three bands are those of ISO 15242-2, but that measures at 1800 r/min (+1,"
                    + " -2 %) and this turns at "
                    + Math.round(take.meanRpm())
                    + ": hold these levels against the same bearing, load and speed alone.";
        }
        return take.turning() == Ring.OUTER
                ? "ISO 15242-2 measures on a standing outer ring; here the outer ring turns, so"
                        + " hold these levels against the same bearing on this bench alone."
                : "ISO 15242-2 measures under a fixed axial load on a quiet spindle; without those"
                        + " hold these levels against the same bearing on this bench alone.";
    }
}
