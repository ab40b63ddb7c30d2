package tickover.session;

import java.nio.file.Path;
import tickover.store.Log;

/**
 * A process that imports one recording, over and over, until it is killed. Arguments: the
 * recording, a folder for visit folders, a data folder.
 */
final class ImportChild {
    private ImportChild() {}

    public static void main(String[] args) {
        for (int i = 0; ; i++) {
            System.out.println("importing " + i);
            Path folder = Path.of(args[1]).resolve("v" + i);
            RecordingVisit.Made made =
                    RecordingVisit.write(Path.of(args[0]), RecordingVisit.About.NOTHING, folder);
            try (Log log = Log.open(Path.of(args[2]).resolve("data" + i))) {
                log.importVisit(made.visit());
            }
        }
    }
}
