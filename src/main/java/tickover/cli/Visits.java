package tickover.cli;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import tickover.diagnose.VisitResult;
import tickover.session.CodeVersion;
import tickover.session.KeptResults;
import tickover.session.RecordingVisit;
import tickover.session.VisitAnalysis;
import tickover.store.KeptVisit;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.Visit;
import tickover.store.VisitFolder;

/** Finds the visits that commands name, and what they say. */
final class Visits {
    /** Fewer characters of an id would match by accident. */
    private static final int SHORTEST_PREFIX = 4;

    private final Terminal terminal;
    private final LogPlace place;

    Visits(Terminal terminal, LogPlace place) {
        this.terminal = terminal;
        this.place = place;
    }

    /** Opens the log. */
    Log openLog() {
        return Log.open(place);
    }

    /**
     * Finds a visit.
     *
     * @param name a folder, a recording, an id, or the first characters of an id
     */
    VisitHandle find(String name) {
        if (isFolder(name)) {
            return new VisitHandle(VisitFolder.read(Path.of(name)), false);
        }
        if (isRecording(name)) {
            return new VisitHandle(recorded(Path.of(name), RecordingVisit.About.NOTHING), false);
        }
        try (Log log = openLog()) {
            UUID id = id(name, log.visits());
            Visit visit =
                    log.visit(id)
                            .orElseThrow(() -> CliException.badInput("visit " + id + " is gone"));
            return new VisitHandle(visit, true);
        }
    }

    private static boolean isFolder(String name) {
        try {
            return Files.isDirectory(Path.of(name));
        } catch (InvalidPathException e) {
            return false;
        }
    }

    private static boolean isRecording(String name) {
        try {
            return RecordingVisit.isNamedBy(Path.of(name));
        } catch (InvalidPathException e) {
            return false;
        }
    }

    /**
     * Makes a visit of a recording, in a folder that is removed when the program ends.
     *
     * @param recording the recording
     * @param about what it does not say of itself
     */
    Visit recorded(Path recording, RecordingVisit.About about) {
        terminal.progress("reading " + recording);
        try {
            RecordingVisit.Made made =
                    RecordingVisit.write(recording, about, TemporaryFolder.make().resolve("visit"));
            terminal.progressDone();
            made.remarks().forEach(terminal::note);
            return made.visit();
        } finally {
            terminal.progressDone();
        }
    }

    /** Finds the one visit whose id begins so. */
    UUID id(String name, List<KeptVisit> kept) {
        List<UUID> matches =
                kept.stream()
                        .map(KeptVisit::id)
                        .filter(id -> matches(id, name.toLowerCase(Locale.ROOT)))
                        .toList();
        if (matches.size() == 1) {
            return matches.get(0);
        }
        if (matches.size() > 1) {
            throw CliException.badInput(
                    "'" + name + "' begins the ids of " + matches.size() + " visits; write more");
        }
        throw CliException.badInput(
                "'"
                        + name
                        + "' is neither a folder, a recording (.tkr) nor the id of a visit in the"
                        + " log at "
                        + place
                        + "; 'tickover visits' lists what is there");
    }

    private static boolean matches(UUID id, String name) {
        return id.toString().equals(name)
                || (name.length() >= SHORTEST_PREFIX && id.toString().startsWith(name));
    }

    /**
     * Finds out what a visit says: from the log where this version of the program has said it
     * before, by analysis otherwise. Only a stored visit's result is saved.
     */
    VisitResult result(VisitHandle handle) {
        return handle.stored()
                ? KeptResults.of(place, handle.visit(), this::analyse)
                : analyse(handle.visit());
    }

    private VisitResult analyse(Visit visit) {
        Drives.model(visit.vehicle(), "vehicle.toml of " + visit.vehicle().unit());
        String name = visit.vehicle().unit() + " of " + visit.date().toLocalDate();
        terminal.progress("analysing " + name);
        try {
            return VisitAnalysis.analyse(
                    visit,
                    (done, total) ->
                            terminal.progress(
                                    "analysing " + name + ", capture " + done + " of " + total));
        } finally {
            terminal.progressDone();
        }
    }

    /** Makes sure that every visit of a unit has a result, so that its levels can be compared. */
    void analyseAll(String unit) {
        List<UUID> outdated;
        try (Log log = openLog()) {
            outdated = log.history().outdated(unit, CodeVersion.text());
        }
        for (UUID visit : outdated) {
            result(find(visit.toString()));
        }
    }
}
