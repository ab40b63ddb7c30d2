package tickover.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.order.TimeRange;
import tickover.report.Wording;

/** Stretches of a capture that findings leave out, marked beside figures that hold them. */
final class BadStretches {
    private static final int SHOWN = 6;

    private final List<Stretch> stretches = new ArrayList<>();

    /** One of them, and why. */
    private record Stretch(QualityProblem problem, TimeRange range) {}

    BadStretches(List<QualityNote> notes) {
        for (QualityNote note : notes) {
            for (TimeRange range : note.ranges()) {
                stretches.add(new Stretch(note.problem(), range));
            }
        }
        stretches.sort(Comparator.comparingDouble(s -> s.range().fromS()));
    }

    boolean none() {
        return stretches.isEmpty();
    }

    /** One sentence that says what holds them. */
    String sentence(String what) {
        String where =
                stretches.stream()
                        .limit(SHOWN)
                        .map(
                                s ->
                                        String.format(
                                                Locale.ROOT,
                                                "%.1f to %.1f s (%s)",
                                                s.range().fromS(),
                                                s.range().toS(),
                                                Wording.problem(s.problem())))
                        .collect(Collectors.joining(", "));
        int more = stretches.size() - SHOWN;
        return what
                + " hold bad stretches, which 'tickover findings' leaves out: "
                + where
                + (more > 0 ? " and " + more + " more" : "")
                + ".";
    }

    JsonArray json() {
        return Json.array(
                stretches,
                s -> {
                    JsonObject o = new JsonObject();
                    o.addProperty("problem", s.problem().word());
                    Json.put(o, "fromS", s.range().fromS());
                    Json.put(o, "toS", s.range().toS());
                    return o;
                });
    }
}
