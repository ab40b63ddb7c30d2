package tickover.store;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import java.util.UUID;

/**
 * A process that writes notes, repair marks and results into a log that others write to as well.
 * Arguments: the data folder or address, a word that marks what is its own, how often, this
 * machine's own folder, a folder of visits to import: some for both, some of one's own.
 */
final class WritingChild {
    private WritingChild() {}

    public static void main(String[] args) {
        write(
                Store.place(args[0], Path.of(args[3])),
                args[1],
                Integer.parseInt(args[2]),
                Path.of(args[4]));
    }

    static void write(LogPlace data, String word, int times, Path folders) {
        System.out.println("writing " + word);
        for (int i = 0; i < times; i++) {
            // Opened anew each time, as every command does.
            try (Log log = Log.open(data)) {
                for (String name : List.of("both-" + i, word + "-" + i)) {
                    if (Files.exists(folders.resolve(name))) {
                        log.importVisit(VisitFolder.read(folders.resolve(name)));
                    }
                }
                KeptVisit kept = log.visits().get(0);
                LocalDateTime at = kept.date().plusDays(i + 1L);
                String text = word + " " + i;
                log.history().addNote(new Note(UUID.randomUUID(), kept.unit(), at, "", "", text));
                log.history().addRepair(kept.unit(), at, "idler", text);
                Visit visit = log.visit(kept.id()).orElseThrow();
                log.saveResult(visit.id(), Results.of(visit, 1 + i));
                log.history().refresh((done, total) -> {});
            }
        }
    }
}
