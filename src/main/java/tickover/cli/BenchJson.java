package tickover.cli;

import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.List;
import tickover.diagnose.BenchDifference;
import tickover.diagnose.BenchFinding;
import tickover.diagnose.BenchLevel;
import tickover.diagnose.BenchLine;
import tickover.diagnose.BenchOdds;
import tickover.diagnose.BenchPattern;
import tickover.diagnose.BenchResult;
import tickover.report.BenchWords;

/** What a bench record comes to, as JSON. */
final class BenchJson {
    private BenchJson() {}

    static JsonObject of(BenchResult result, BearingOption bearing) {
        JsonObject o = new JsonObject();
        o.addProperty("verdict", result.verdict().word());
        Json.put(o, "probability", result.probability());
        o.add("findings", Json.array(result.findings(), BenchJson::finding));
        o.add("lines", Json.array(result.lines(), BenchJson::line));
        o.add("levels", Json.array(result.levels(), BenchJson::level));
        o.add("odds", Json.array(result.odds(), BenchJson::odds));
        o.add("patterns", Json.array(result.patterns(), BenchJson::pattern));
        o.add("againstGood", Json.array(result.differences(), BenchJson::difference));
        Json.put(o, "speedRpm", result.speedRpm());
        o.addProperty("speedConfirmed", result.speedConfirmed());
        o.addProperty("rotating", bearing.turning().word());
        List<String> notes = new ArrayList<>();
        if (!bearing.turningSaid()) {
            notes.add(BenchText.ringNote(bearing.turning()));
        }
        notes.addAll(result.notes());
        o.add("notes", Json.words(notes));
        return o;
    }

    private static JsonObject finding(BenchFinding f) {
        JsonObject o = new JsonObject();
        o.addProperty("fault", f.fault().word());
        o.addProperty("state", f.state().word());
        o.addProperty("channel", BenchText.channel(f.channel()));
        o.addProperty("text", f.text());
        return o;
    }

    private static JsonObject difference(BenchDifference d) {
        JsonObject o = new JsonObject();
        o.addProperty("name", d.name());
        o.addProperty("unit", d.unit());
        Json.put(o, "value", d.value());
        Json.put(o, "goodValue", d.goodValue());
        Json.put(o, "changeDb", d.change().changeDb());
        Json.put(o, "lowDb", d.change().lowDb());
        Json.put(o, "highDb", d.change().highDb());
        o.addProperty("coversTouches", d.coversTouches());
        return o;
    }

    private static JsonObject line(BenchLine l) {
        JsonObject o = new JsonObject();
        o.addProperty("fault", l.fault());
        o.addProperty("text", l.text());
        Json.put(o, "order", l.order());
        Json.put(o, "frequencyHz", l.frequencyHz());
        Json.put(o, "strengthDb", l.strengthDb());
        Json.put(o, "modulationRatio", l.modulationRatio());
        return o;
    }

    private static JsonObject level(BenchLevel l) {
        JsonObject o = new JsonObject();
        o.addProperty("name", l.name());
        Json.put(o, "value", l.value());
        o.addProperty("unit", l.unit());
        o.addProperty("text", l.text());
        return o;
    }

    private static JsonObject odds(BenchOdds odds) {
        JsonObject o = new JsonObject();
        o.addProperty("verdict", odds.verdict().word());
        Json.put(o, "probability", odds.probability());
        return o;
    }

    private static JsonObject pattern(BenchPattern p) {
        JsonObject o = new JsonObject();
        o.addProperty("fault", p.fault());
        o.addProperty("text", BenchWords.of(p));
        Json.put(o, "orderFound", p.orderFound());
        Json.put(o, "deviationRatio", p.deviationRatio());
        Json.put(o, "strengthDb", p.strengthDb());
        Json.put(o, "modulationRatio", p.modulationRatio());
        Json.put(o, "levelRmsMps2", p.levelRmsMps2());
        Json.put(o, "falseAlarmProbability", p.falseAlarmProbability());
        o.addProperty("channel", BenchText.channel(p.band().channel()));
        Json.put(o, "bandFromHz", p.band().loHz());
        Json.put(o, "bandToHz", p.band().hiHz());
        return o;
    }
}
