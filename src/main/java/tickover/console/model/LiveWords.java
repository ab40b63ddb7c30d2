package tickover.console.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import tickover.diagnose.LivePartLevels;
import tickover.diagnose.LivePartLine;
import tickover.diagnose.LiveParts;
import tickover.diagnose.LiveQuality;
import tickover.diagnose.Mount;
import tickover.drive.PartLine;
import tickover.drive.PartWords;
import tickover.session.LiveFrame;
import tickover.session.LiveSetup;

/** Puts a snapshot into words and bars. */
final class LiveWords {
    /** Lines blur from here on, but parts' lines stand lower: worth no words. */
    private static final double SHARP_ENOUGH_ORDERS = 60;

    /** How near is at: half the main lobe of a row's frame, bins. */
    private static final double NEAR_BINS = 1.5;

    private LiveWords() {}

    static String speed(LiveFrame frame) {
        return switch (frame.speed()) {
            case EDGES, READINGS -> String.format(Locale.ROOT, "%.0f rpm", frame.speedRpm());
            case FORMING -> "speed coming…";
            case NONE -> "no speed";
        };
    }

    static String speedNote(LiveFrame frame) {
        String blur =
                frame.sharpOrders() > 0 && frame.sharpOrders() < SHARP_ENOUGH_ORDERS
                        ? String.format(
                                Locale.ROOT,
                                " Lines above order %.0f blur: the speed is not known better.",
                                frame.sharpOrders())
                        : "";
        return switch (frame.speed()) {
            case EDGES -> "From the tach." + blur;
            case READINGS -> "From the diagnostic socket." + blur;
            case FORMING -> "The tach has seen its mark; three passages make a speed.";
            case NONE ->
                    frame.setup().bins() == 0
                            ? "No waterfall and no levels of parts at the bench."
                            : "No waterfall and no levels without it: is the engine running, does"
                                    + " the tach see its mark?";
        };
    }

    /** How far up a mount carries, in words. */
    static String limit(Mount mount) {
        return String.format(
                Locale.ROOT,
                "%s: above %.1f kHz heights are not to be taken at face value, rhythms count.",
                RoundState.held(mount),
                LiveQuality.limitHz(mount) / 1000);
    }

    static List<String> quality(LiveFrame frame) {
        List<String> out = new ArrayList<>();
        if (frame.isFlat()) {
            out.add("The signal does not move: check the probe and its lead.");
        } else if (frame.isLifted()) {
            out.add("Contact lost: press the probe on.");
        }
        if (frame.isClipped()) {
            out.add("Clipped: press less hard, or move to a quieter spot near by.");
        }
        if (frame.missedEdges()) {
            out.add("Pulses missed: the tach does not see its mark at every turn.");
        }
        if (frame.lostSamples()) {
            out.add("Samples lost on the line: check plug and lead.");
        }
        return out;
    }

    static String forming(LiveFrame frame) {
        int n = frame.levels().segments();
        if (frame.setup().parts().isEmpty()) {
            return "No drive is known, so no part has a level.";
        }
        return n == 0
                ? "The first levels come after " + LiveParts.SEGMENT_TURNS + " turns."
                : n < LiveParts.SEGMENTS
                        ? "In m/s² rms, forming: " + n + " of " + LiveParts.SEGMENTS + " stretches."
                        : "In m/s² rms, mean of the latest " + LiveParts.SEGMENTS + " stretches.";
    }

    static List<LiveState.Bar> bars(LiveFrame frame, String aimed) {
        LivePartLevels levels = frame.levels();
        LiveSetup setup = frame.setup();
        double loudest = 1e-9;
        for (int p = 0; p < setup.parts().size(); p++) {
            loudest = Math.max(loudest, levels.levelMps2(p) + levels.errorMps2(p));
        }
        List<LiveState.Bar> out = new ArrayList<>();
        for (int p = 0; p < setup.parts().size(); p++) {
            String part = setup.parts().get(p);
            out.add(
                    new LiveState.Bar(
                            part,
                            levels.levelMps2(p) / loudest,
                            levels.errorMps2(p) / loudest,
                            words(levels, p, allShared(frame, p)),
                            part.equals(aimed)));
        }
        return out;
    }

    private static String words(LivePartLevels levels, int part, boolean allShared) {
        if (levels.segments() == 0) {
            return "–";
        }
        if (allShared) {
            return "only shared";
        }
        String level = LineWords.number(levels.levelMps2(part));
        return levels.hasErrors() ? level + " ± " + error(levels.errorMps2(part)) : level;
    }

    private static String error(double mps2) {
        return mps2 < 0.005 ? "<0.01" : LineWords.number(mps2);
    }

    private static boolean allShared(LiveFrame frame, int part) {
        List<LivePartLine> lines = frame.setup().lines();
        String name = frame.setup().parts().get(part);
        for (int i = 0; i < lines.size(); i++) {
            if (lines.get(i).part().equals(name) && sharers(frame, i).isEmpty()) {
                return false;
            }
        }
        return true;
    }

    private static List<String> sharers(LiveFrame frame, int line) {
        List<String> parts = frame.setup().parts();
        List<String> out = new ArrayList<>();
        for (int p = 0; p < parts.size(); p++) {
            if (frame.levels().isShared(line, p)) {
                out.add(parts.get(p));
            }
        }
        return out;
    }

    static List<LiveState.Mark> marks(LiveFrame frame, String chosen, boolean knocks) {
        List<LiveState.Mark> out = new ArrayList<>();
        List<LivePartLine> lines = frame.setup().lines();
        for (int i = 0; i < lines.size(); i++) {
            LivePartLine line = lines.get(i);
            if (line.part().equals(chosen)) {
                double reach = line.nominalOrders() * line.uncertaintyRatio();
                out.add(
                        new LiveState.Mark(
                                frame.levels().orders(i),
                                line.nominalOrders() - reach,
                                line.nominalOrders() + reach,
                                LineWords.brief(line.kind()),
                                !sharers(frame, i).isEmpty(),
                                line.byKnocks() == knocks));
            }
        }
        return out;
    }

    static double limitOrders(LiveFrame frame, Mount mount) {
        boolean turning =
                frame.speed() == LiveFrame.Speed.EDGES || frame.speed() == LiveFrame.Speed.READINGS;
        return turning ? LiveQuality.limitHz(mount) * 60 / frame.speedRpm() : 0;
    }

    /** Whose line stands at an order, and who shares it. */
    static List<String> pointed(
            LiveFrame frame, double order, double levelMps2, double cycle, boolean knocks) {
        List<String> out = new ArrayList<>();
        String hz =
                frame.speedRpm() > 0
                        ? String.format(Locale.ROOT, ", %.1f Hz", order * frame.speedRpm() / 60)
                        : "";
        out.add(
                String.format(
                        Locale.ROOT,
                        "Order %.2f%s: %.3f m/s²%s.",
                        order,
                        hz,
                        levelMps2,
                        knocks ? " of knocks" : ""));
        double near = NEAR_BINS / frame.setup().turnsPerFrame();
        TreeSet<String> owners = new TreeSet<>();
        List<LivePartLine> lines = frame.setup().lines();
        for (int i = 0; i < lines.size(); i++) {
            LivePartLine line = lines.get(i);
            double reach = Math.max(near, line.nominalOrders() * line.uncertaintyRatio());
            if (Math.abs(line.nominalOrders() - order) <= reach) {
                owners.add(line.part());
                out.add(owner(frame, i));
            }
        }
        boolean engines = Math.abs(order - cycle * Math.rint(order / cycle)) < near && order > near;
        if (engines && owners.add(PartLine.ENGINE)) {
            out.add(
                    String.format(
                            Locale.ROOT,
                            "Engine: a multiple of the working cycle (order %.1f).",
                            cycle * Math.rint(order / cycle)));
        }
        if (owners.isEmpty()) {
            out.add("No part of this drive has a line here.");
        } else if (owners.size() > 1) {
            out.add("Order alone cannot say which of them it is: place, load or belt-off can.");
        }
        return out;
    }

    private static String owner(LiveFrame frame, int index) {
        LivePartLine line = frame.setup().lines().get(index);
        LivePartLevels levels = frame.levels();
        double reach = line.nominalOrders() * line.uncertaintyRatio();
        String where =
                reach > 0
                        ? String.format(
                                Locale.ROOT,
                                "expected %.2f to %.2f",
                                line.nominalOrders() - reach,
                                line.nominalOrders() + reach)
                        : String.format(Locale.ROOT, "at %.2f", line.nominalOrders());
        String found =
                levels.segments() > 0
                        ? String.format(
                                Locale.ROOT,
                                ", found at %.2f with %.3f m/s²%s",
                                levels.orders(index),
                                levels.lineMps2(index),
                                line.byKnocks() ? " of knocks" : "")
                        : "";
        List<String> with = sharers(frame, index);
        String shared = with.isEmpty() ? "" : "; shared with " + PartWords.list(with, "and");
        String part = PartWords.plain(line.part());
        String name = part.substring(0, 1).toUpperCase(Locale.ROOT) + part.substring(1);
        return name + ", " + LineWords.of(line.kind()) + ": " + where + found + shared + ".";
    }
}
