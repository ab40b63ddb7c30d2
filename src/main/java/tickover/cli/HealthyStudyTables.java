package tickover.cli;

import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tickover.diagnose.LineChance;
import tickover.session.HealthyStudy.Heard;

/** Writes how often the bearing statistic spoke on healthy engines, as Markdown. */
final class HealthyStudyTables {
    private static final double[] NATS = {2, 3, 5, 8, 12};
    private static final double NORMAL_95 = 1.96;

    private HealthyStudyTables() {}

    static List<String> lines(List<Heard> captures) {
        List<LineChance.Line> all = captures.stream().flatMap(c -> c.lines().stream()).toList();
        List<LineChance.Line> decoys = all.stream().filter(LineChance.Line::decoy).toList();
        List<LineChance.Line> own = all.stream().filter(l -> !l.decoy()).toList();
        List<String> out = new ArrayList<>();
        out.add(
                captures.size()
                        + " captures of healthy engines, "
                        + own.size()
                        + " bearing lines looked for, "
                        + decoys.size()
                        + " times beside them where no line is.");
        out.add("");
        out.add(
                "| statistic, nats | claimed, at most | beside lines | at bearing lines"
                        + " | captures with any line of it |");
        out.add("|---|---|---|---|---|");
        for (double nats : NATS) {
            double claimed =
                    decoys.stream()
                            .mapToDouble(l -> Math.min(1, l.orders() * Math.exp(-nats)))
                            .average()
                            .orElse(0);
            long any =
                    captures.stream()
                            .filter(
                                    c ->
                                            c.lines().stream()
                                                    .anyMatch(l -> !l.decoy() && l.nats() >= nats))
                            .count();
            out.add(
                    String.format(
                            Locale.ROOT,
                            "| %.0f | %.4f | %s | %s | %s |",
                            nats,
                            claimed,
                            share(over(decoys, nats), decoys.size()),
                            share(over(own, nats), own.size()),
                            share(any, captures.size())));
        }
        return out;
    }

    private static long over(List<LineChance.Line> lines, double nats) {
        return lines.stream().filter(l -> l.nats() >= nats).count();
    }

    /** A share with its 95 % interval after Wilson. */
    private static String share(long count, int of) {
        if (of == 0) {
            return "–";
        }
        double p = (double) count / of;
        double z = NORMAL_95 * NORMAL_95 / of;
        double middle = (p + z / 2) / (1 + z);
        double half = NORMAL_95 * Math.sqrt(p * (1 - p) / of + z / (4 * of)) / (1 + z);
        return String.format(
                Locale.ROOT,
                "%.4f (%.4f to %.4f)",
                p,
                Math.max(0, middle - half),
                Math.min(1, middle + half));
    }

    static JsonObject json(Heard heard) {
        JsonObject o = new JsonObject();
        o.addProperty("seed", heard.seed());
        o.addProperty("capture", heard.capture());
        o.add(
                "lines",
                Json.array(
                        heard.lines(),
                        l -> {
                            JsonObject line = new JsonObject();
                            line.addProperty("part", l.part());
                            line.addProperty("kind", l.kind());
                            line.addProperty("decoy", l.decoy());
                            Json.put(line, "nats", l.nats());
                            Json.put(line, "orders", l.orders());
                            return line;
                        }));
        return o;
    }
}
