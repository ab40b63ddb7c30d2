package tickover.cli;

import com.google.gson.JsonObject;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import tickover.store.ArchiveImport;

/** Takes archives of other logs in, and tells what they brought. */
final class ArchiveText {
    private ArchiveText() {}

    /** Takes an archive in and says so, in words unless JSON is asked for. */
    static ArchiveImport.Taken take(Terminal terminal, SharedOptions shared, Path archive) {
        ArchiveImport.Taken taken =
                ArchiveImport.take(
                        shared.log(),
                        archive,
                        (done, total) ->
                                terminal.progress(
                                        "importing "
                                                + archive
                                                + ", visit "
                                                + done
                                                + " of "
                                                + total));
        terminal.progressDone();
        taken.said().forEach(terminal::note);
        taken.refused().forEach(terminal::note);
        if (!shared.json()) {
            terminal.line(sentence(archive, taken));
        }
        return taken;
    }

    private static String sentence(Path archive, ArchiveImport.Taken taken) {
        if (!taken.changed()) {
            return "everything in " + archive + " is in the log already";
        }
        List<String> parts = new ArrayList<>();
        add(parts, taken.visits(), "new visit", "new visits");
        add(parts, taken.findings(), "new result", "new results");
        add(parts, taken.notes(), "new note or mark", "new notes or marks");
        add(parts, taken.drives(), "newer drive", "newer drives");
        add(parts, taken.files(), "file put back", "files put back");
        return "imported "
                + archive
                + ": "
                + String.join(", ", parts)
                + (taken.knownVisits() == 0
                        ? ""
                        : "; " + Amounts.count(taken.knownVisits(), "visit") + " known already");
    }

    private static void add(List<String> parts, int count, String one, String many) {
        if (count > 0) {
            parts.add(count + " " + (count == 1 ? one : many));
        }
    }

    static JsonObject json(Path archive, ArchiveImport.Taken taken) {
        JsonObject o = new JsonObject();
        o.addProperty("archive", archive.toString());
        o.addProperty("isNew", taken.changed());
        o.addProperty("newVisits", taken.visits());
        o.addProperty("knownVisits", taken.knownVisits());
        o.addProperty("newResults", taken.findings());
        o.addProperty("newNotes", taken.notes());
        o.addProperty("newerDrives", taken.drives());
        o.addProperty("filesPutBack", taken.files());
        o.add("remarks", Json.words(taken.said()));
        o.add("refused", Json.words(taken.refused()));
        return o;
    }
}
