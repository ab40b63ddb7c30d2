package tickover.session;

import java.nio.file.Path;
import java.util.List;
import java.util.function.IntConsumer;
import tickover.store.ArchiveImport;
import tickover.store.KeptVisit;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.Store;

/**
 * A process that works on a log as a whole until it is done or killed. Arguments: {@code take} or
 * {@code reanalyse}, a data folder or address, this machine's own folder, and for {@code take} an
 * archive.
 */
final class LogChild {
    private LogChild() {}

    public static void main(String[] args) {
        System.out.println("begun");
        LogPlace data = Store.place(args[1], Path.of(args[2]));
        if (args[0].equals("take")) {
            ArchiveImport.take(data, Path.of(args[3]), (done, total) -> System.out.println(done));
        } else {
            reanalyse(data, System.out::println);
        }
    }

    static void reanalyse(LogPlace data, IntConsumer told) {
        List<KeptVisit> visits;
        try (Log log = Log.open(data)) {
            visits = log.visits();
        }
        Reanalysis.run(
                data,
                visits,
                visit -> SmallVisits.result(7, CodeVersion.text()),
                (line, done, total) -> told.accept(done));
    }
}
