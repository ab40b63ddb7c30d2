package tickover.cli;

import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.List;
import tickover.diagnose.PartChange;
import tickover.drive.PartWords;
import tickover.report.Wording;

/** Level changes of parts as text and as JSON. */
final class ChangeTable {
    private ChangeTable() {}

    static List<String> lines(List<PartChange> changes) {
        TextTable table =
                new TextTable(
                        "Part",
                        ">Before, m/s²",
                        ">After, m/s²",
                        ">Change, dB",
                        ">95 % interval, dB",
                        ">Pairs",
                        "In words");
        for (PartChange c : changes) {
            table.row(
                    PartWords.plain(c.part()),
                    Prose.three(c.beforeRmsMps2()),
                    Prose.three(c.afterRmsMps2()),
                    Prose.signed(c.changeDb(), 1),
                    Prose.signed(c.lowDb(), 1) + " to " + Prose.signed(c.highDb(), 1),
                    Integer.toString(c.pairs()),
                    Wording.change(c));
        }
        List<String> lines = new ArrayList<>(table.lines());
        if (changes.stream().anyMatch(c -> !c.coversTouches())) {
            lines.addAll(
                    Prose.fold(
                            "",
                            "The intervals hold the scatter within the captures alone: there are"
                                + " too few pairs to tell what putting the probe down again does,"
                                + " which may well be 3 dB and more by hand."));
        }
        return lines;
    }

    static JsonObject json(PartChange c) {
        JsonObject o = new JsonObject();
        o.addProperty("part", c.part());
        Json.put(o, "changeDb", c.changeDb());
        Json.put(o, "lowDb", c.lowDb());
        Json.put(o, "highDb", c.highDb());
        o.addProperty("isClear", c.isClear());
        o.addProperty("coversTouches", c.coversTouches());
        if (c.coversTouches()) {
            Json.put(o, "luckRatio", c.luckRatio());
        }
        o.addProperty("pairs", c.pairs());
        Json.put(o, "beforeRmsMps2", c.beforeRmsMps2());
        Json.put(o, "afterRmsMps2", c.afterRmsMps2());
        return o;
    }
}
