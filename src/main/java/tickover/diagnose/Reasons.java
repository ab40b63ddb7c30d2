package tickover.diagnose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tickover.drive.PartWords;
import tickover.drive.Separability;

/**
 * Says in a mechanic's words why a suspect stands where it stands. The strength of a reason is how
 * far it moves the odds for the suspect against a healthy engine, ten times the decimal logarithm.
 */
final class Reasons {
    /** From natural logarithms of odds to decibels. */
    static final double TO_DB = 10 / Math.log(10);

    /** Odds for a rhythm, as ten times the decimal logarithm, from which it is called so. */
    private static final double VERY_CLEAR_DB = 30;

    private static final double CLEAR_DB = 15;
    private static final double FAINT_DB = 5;

    /** What falls by more with the belt off is gone, by less still there; judgement. */
    private static final double GONE_DB = 7;

    private static final double STILL_THERE_DB = 3;

    /** Engine lines count as rivals up to this order, per crank turn. */
    private static final double ENGINE_ORDERS = 12;

    /** What weighs most comes first. */
    static final Comparator<Evidence> STRONGEST_FIRST =
            Comparator.comparingDouble((Evidence e) -> Math.abs(e.strengthDb())).reversed();

    private final RankingModel model;
    private final Separability separability;

    Reasons(VisitEvidence evidence, RankingModel model) {
        this.model = model;
        double lengthS = 0;
        double speedRpm = 0;
        int count = evidence.captures().size();
        for (CaptureMeasurement c : evidence.captures()) {
            lengthS += c.summary().durationS() / count;
            speedRpm += c.summary().meanSpeedRpm() / count;
        }
        this.separability =
                Separability.of(
                        evidence.drive(),
                        new Separability.Spec(lengthS, speedRpm, 1, ENGINE_ORDERS));
    }

    List<Evidence> of(SuspectClues s) {
        Map<Clue, Double> weight = model.contributions(s);
        List<Evidence> out = new ArrayList<>();
        out.add(
                new Evidence(
                        EvidenceKind.PATTERN,
                        pattern(s),
                        TO_DB
                                * sum(
                                        weight,
                                        Clue.COMB,
                                        Clue.SHAKE,
                                        Clue.MODULATION,
                                        Clue.LEVEL,
                                        Clue.DEPTH,
                                        Clue.SLOTS,
                                        Clue.ODD,
                                        Clue.ODD_NEAR,
                                        Clue.DULL,
                                        Clue.AMONG_PARTS,
                                        Clue.MISFIT)));
        place(s, weight, out);
        if (s.contrastDb() != 0) {
            out.add(
                    new Evidence(
                            EvidenceKind.CONTRAST,
                            contrast(s),
                            TO_DB * sum(weight, Clue.CONTRAST)));
        }
        if (s.beltOffDb() != 0) {
            out.add(
                    new Evidence(
                            EvidenceKind.BELT_OFF, beltOff(s), TO_DB * sum(weight, Clue.BELT_OFF)));
        }
        if (s.injectorOffDb() != 0) {
            out.add(
                    new Evidence(
                            EvidenceKind.INJECTOR_OFF,
                            say(
                                    "With %s unplugged the tick is %.0f dB %s.",
                                    PartWords.the(s.suspect().component()),
                                    Math.abs(s.injectorOffDb()),
                                    s.injectorOffDb() > 0 ? "weaker" : "stronger"),
                            TO_DB * sum(weight, Clue.INJECTOR_OFF)));
        }
        shared(s, out);
        out.sort(STRONGEST_FIRST);
        return out;
    }

    private static double sum(Map<Clue, Double> weight, Clue... clues) {
        double total = 0;
        for (Clue clue : clues) {
            total += weight.get(clue);
        }
        return total;
    }

    private String pattern(SuspectClues s) {
        Suspect suspect = s.suspect();
        String name = PartWords.the(suspect.component());
        double f = s.foundOrders();
        String detail = suspect.detail().isEmpty() ? "" : ", " + suspect.detail();
        String clear = clarity(s);
        return switch (suspect.fault()) {
            case BEARING_OUTER_RING ->
                    say(
                            "%s knocks %.2f times per crank turn, as balls passing a spot on the"
                                    + " outer ring of %s would (%s%s).",
                            clear, f, name, offset(s), detail);
            case BEARING_INNER_RING ->
                    say(
                            "%s knocks %.2f times per crank turn, as balls passing a spot on the"
                                    + " inner ring of %s would (%s%s).",
                            clear, f, name, offset(s), detail);
            case ROLLING_ELEMENT ->
                    say(
                            "%s knocks %.2f times per crank turn, as a damaged ball of %s would"
                                    + " (%s%s).",
                            clear, f, name, offset(s), detail);
            case CAGE ->
                    say(
                            "%s a beat %.2f times per crank turn, as the cage of %s turns"
                                    + " (%s%s).",
                            clear, f, name, offset(s), detail);
            case BEARING_ROUGH ->
                    say(
                            "%s a rushing noise that comes and goes with the turn of %s, %.2f"
                                    + " per crank turn.",
                            clear, name, f);
            case ECCENTRIC ->
                    say("%s a shake once per turn of %s, %.2f per crank turn.", clear, name, f);
            case LOOSE ->
                    say(
                            "%s knocks %s of %s (%.2f per crank turn) with their multiples, as"
                                    + " something loose makes.",
                            clear, suspect.detail(), name, f);
            case BELT_DAMAGE ->
                    say(
                            "%s knocks once per turn of the belt, %.3f per crank turn, with many"
                                    + " multiples.",
                            clear, f);
            case TICK ->
                    say(
                            "One cylinder's tick rises %.0f dB over the others, once per working"
                                    + " cycle.",
                            s.rhythmDb());
            case UNSPECIFIED -> outside(s);
            case NONE -> "Something is out of the ordinary.";
        };
    }

    private static String outside(SuspectClues s) {
        return s.suspect().group() == FaultGroup.ENGINE_KNOCK
                ? say(
                        "One cylinder knocks %.0f dB harder than the others, once per working"
                                + " cycle, as a piston or a rod with play would.",
                        s.rhythmDb())
                : say(
                        "%s knocks %.2f times per crank turn, as a bearing on %s, and not on the"
                                + " belt, would (its internals are unknown).",
                        clarity(s), s.foundOrders(), s.suspect().detail());
    }

    private static String clarity(SuspectClues s) {
        if (s.rhythmDb() > VERY_CLEAR_DB) {
            return "Very clear:";
        }
        if (s.rhythmDb() > CLEAR_DB) {
            return "Clear:";
        }
        return s.rhythmDb() > FAINT_DB ? "Faint:" : "Hardly there:";
    }

    private static String offset(SuspectClues s) {
        double centre = s.suspect().rhythm().centreOrders();
        double percent = 100 * (s.foundOrders() / centre - 1);
        if (s.suspect().group().isWide()) {
            return "its internals are unknown";
        }
        return say("%+.1f %% from where its measurements put it", percent);
    }

    private void place(SuspectClues s, Map<Clue, Double> weight, List<Evidence> out) {
        String own = PartWords.the(s.suspect().ownPoint());
        if (own.isEmpty()) {
            return;
        }
        if (s.clue(Clue.OUT_OF_REACH) > 0) {
            out.add(
                    new Evidence(
                            EvidenceKind.PLACE,
                            say("Nothing was recorded at %s itself.", own),
                            TO_DB * sum(weight, Clue.OUT_OF_REACH)));
        } else if (!s.rivalPoint().isEmpty()) {
            double strengthDb = TO_DB * sum(weight, Clue.PLACE);
            out.add(new Evidence(EvidenceKind.PLACE, strongest(s, own, strengthDb), strengthDb));
        }
    }

    /** The strongest point is not all: how it falls off with distance may say the opposite. */
    private static String strongest(SuspectClues s, String own, double strengthDb) {
        String rival = PartWords.the(s.rivalPoint());
        if (s.placeDb() >= 0) {
            return say(
                    "It is strongest at %s: %.0f dB more than at %s%s.",
                    own,
                    s.placeDb(),
                    rival,
                    strengthDb < 0 ? "; over all points it does not fade as from there" : "");
        }
        return say(
                "It is %.0f dB weaker at %s than at %s%s.",
                -s.placeDb(),
                own,
                rival,
                strengthDb > 0 ? "; over all points it fades as from there all the same" : "");
    }

    private static String contrast(SuspectClues s) {
        return say(
                "With its own load on it is %.0f dB %s.",
                Math.abs(s.contrastDb()), s.contrastDb() > 0 ? "stronger" : "weaker");
    }

    private static String beltOff(SuspectClues s) {
        double db = s.beltOffDb();
        if (db > GONE_DB) {
            return say(
                    "With the belt off it is %.0f dB weaker, so it is belt-driven; which part,"
                            + " that alone cannot say.",
                    db);
        }
        return db > STILL_THERE_DB
                ? say("With the belt off it is %.0f dB weaker, which decides nothing.", db)
                : say(
                        "With the belt off it is still there (%+.0f dB), so it is not belt-driven.",
                        -db);
    }

    /** How a part stands against earlier visits. */
    static Evidence history(Risen risen) {
        String than =
                risen.visits() == 1
                        ? "at the visit before"
                        : "at the " + risen.visits() + " visits before";
        double db = risen.riseDb();
        String text =
                Math.abs(db) < risen.errorDb()
                        ? say("It is about as loud as %s (%+.0f dB, %s).", than, db, spread(risen))
                        : say(
                                "It is %.0f dB %s than %s (%s).",
                                Math.abs(db), db > 0 ? "louder" : "quieter", than, spread(risen));
        return new Evidence(EvidenceKind.HISTORY, text, TO_DB * risen.nats());
    }

    private static String spread(Risen risen) {
        return say("%s; an unchanged part strays by %.0f dB", risen.placeWords(), risen.errorDb());
    }

    private void shared(SuspectClues s, List<Evidence> out) {
        if (s.suspect().group().isOfCycle()) {
            return;
        }
        List<String> others = separability.sharedWith(s.suspect().component(), s.foundOrders());
        if (!others.isEmpty()) {
            out.add(
                    new Evidence(
                            EvidenceKind.SHARED,
                            say(
                                    "These recordings cannot tell this rhythm from one of %s by"
                                            + " order alone; place and load have to part them.",
                                    PartWords.list(others, "and")),
                            0));
        }
    }

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
