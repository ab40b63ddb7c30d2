package tickover.cli;

import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tickover.drive.PartWords;
import tickover.order.SynchronousAverage;
import tickover.session.PartAverages;

/** Words and JSON for what repeats with the turns of parts. */
final class PartAverageText {
    /** Harmonics listed for a person: those well above chance, the strongest first. */
    private static final int MOST_LISTED = 5;

    private static final double CLEAR_OF_CHANCE = 3;

    /** Values per turn that the peak-to-peak is read from. */
    private static final int STEPS = 4096;

    private PartAverageText() {}

    static List<String> lines(PartAverages averages) {
        TextTable parts =
                new TextTable(
                        "Part",
                        ">Turns per crank turn",
                        ">By size",
                        ">Turns averaged",
                        ">rms, m/s²",
                        ">By chance",
                        ">Peak to peak, m/s²");
        TextTable harmonics =
                new TextTable(
                        "Part", ">Per turn", ">Order", ">rms, m/s²", ">By chance", ">Phase, deg");
        for (PartAverages.Part part : averages.parts()) {
            SynchronousAverage a = part.average();
            parts.row(
                    PartWords.plain(part.name()),
                    Prose.fixed(a.turnsPerCrankTurn(), 4),
                    Prose.fixed(part.bySizeTurns(), 4),
                    Integer.toString(a.turns()),
                    Prose.three(a.rms()),
                    Prose.three(a.errorRms()),
                    Prose.three(peakToPeak(a)));
            for (int k : strongest(a)) {
                harmonics.row(
                        PartWords.plain(part.name()),
                        Integer.toString(k),
                        Prose.fixed(k * a.turnsPerCrankTurn(), 4),
                        Prose.three(a.rms(k)),
                        Prose.three(a.errorRms(k)),
                        Prose.fixed(a.phaseDeg(k), 1));
            }
        }
        List<String> lines = new ArrayList<>(parts.lines());
        lines.add("");
        lines.addAll(harmonics.lines());
        lines.add("");
        for (PartAverages.Unheard part : averages.unheard()) {
            lines.addAll(
                    Prose.fold(
                            "",
                            PartWords.start(part.name())
                                    + " is not heard: nothing stands out at once per turn between "
                                    + Prose.fixed(part.fromTurns(), 4)
                                    + " and "
                                    + Prose.fixed(part.toTurns(), 4)
                                    + " turns per crank turn."));
        }
        lines.add(
                "Without these parts "
                        + Prose.three(averages.residualRms())
                        + " of "
                        + Prose.three(averages.recordRms())
                        + " m/s² rms remain.");
        return lines;
    }

    static JsonObject json(PartAverages averages, boolean phaseKnown, BadStretches bad) {
        JsonObject o = new JsonObject();
        o.add("parts", Json.array(averages.parts(), PartAverageText::json));
        o.add(
                "notHeard",
                Json.words(averages.unheard().stream().map(PartAverages.Unheard::name).toList()));
        Json.put(o, "captureRmsMps2", averages.recordRms());
        Json.put(o, "residualRmsMps2", averages.residualRms());
        o.addProperty("phaseIsFromMark", phaseKnown);
        o.add("badStretches", bad.json());
        return o;
    }

    private static JsonObject json(PartAverages.Part part) {
        SynchronousAverage a = part.average();
        JsonObject o = new JsonObject();
        o.addProperty("part", part.name());
        Json.put(o, "turnsPerCrankTurn", a.turnsPerCrankTurn());
        Json.put(o, "turnsPerCrankTurnBySize", part.bySizeTurns());
        o.addProperty("turnsAveraged", a.turns());
        Json.put(o, "rmsMps2", a.rms());
        Json.put(o, "chanceRmsMps2", a.errorRms());
        Json.put(o, "peakToPeakMps2", peakToPeak(a));
        List<Integer> all = new ArrayList<>();
        for (int k = 1; k <= a.harmonics(); k++) {
            all.add(k);
        }
        o.add(
                "harmonics",
                Json.array(
                        all,
                        k -> {
                            JsonObject h = new JsonObject();
                            h.addProperty("perTurn", k);
                            Json.put(h, "order", k * a.turnsPerCrankTurn());
                            Json.put(h, "rmsMps2", a.rms(k));
                            Json.put(h, "chanceRmsMps2", a.errorRms(k));
                            Json.put(h, "phaseDeg", a.phaseDeg(k));
                            return h;
                        }));
        return o;
    }

    private static List<Integer> strongest(SynchronousAverage a) {
        List<Integer> clear = new ArrayList<>();
        for (int k = 1; k <= a.harmonics(); k++) {
            if (a.rms(k) > CLEAR_OF_CHANCE * a.errorRms(k)) {
                clear.add(k);
            }
        }
        clear.sort((i, k) -> Double.compare(a.rms(k), a.rms(i)));
        return clear.stream().limit(MOST_LISTED).toList();
    }

    private static double peakToPeak(SynchronousAverage a) {
        double[] turn = a.overOneTurn(STEPS);
        return Arrays.stream(turn).max().orElse(0) - Arrays.stream(turn).min().orElse(0);
    }
}
