package tickover.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;

/** Visits of ML-07, each with an id of its own. */
final class SomeVisits {
    private SomeVisits() {}

    static Visit of(Path temp, int number, String date) throws IOException {
        Path folder = temp.resolve("visit-" + number);
        Folders.good(folder);
        Files.writeString(
                folder.resolve("visit.toml"),
                Folders.VISIT
                        .replace("2026-03-04T", date + "T")
                        .replace("0195f0c2", String.format("0195f%03d", number)));
        return VisitFolder.read(folder);
    }

    /** Puts so many into a log, a year apart, each with a result. */
    static List<Visit> fill(LogPlace data, Clock clock, Path temp, int count) throws IOException {
        List<Visit> visits = new ArrayList<>();
        try (Log log = Log.open(data, clock)) {
            for (int i = 0; i < count; i++) {
                Visit v = of(temp, i, "202" + i + "-03-04");
                log.importVisit(v);
                log.saveResult(v.id(), Results.of(v, 0.5 + i));
                visits.add(v);
            }
        }
        return visits;
    }
}
