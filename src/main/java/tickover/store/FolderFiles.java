package tickover.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/** Finds the files of one folder, and nothing outside it. */
final class FolderFiles {
    private static final String FORBIDDEN = "/\\:";

    private final Path dir;
    private final Path realDir;
    private final Set<String> absent;

    private FolderFiles(Path dir, Path realDir, Set<String> absent) {
        this.dir = dir;
        this.realDir = realDir;
        this.absent = Set.copyOf(absent);
    }

    /** The same folder, of which it is known that files are gone; naming those is no mistake. */
    FolderFiles without(Set<String> names) {
        return new FolderFiles(dir, realDir, names);
    }

    static FolderFiles of(Path dir) {
        if (!Files.exists(dir)) {
            throw new VisitFolderException(
                    dir.toString(), "there is no such folder; give one with a visit.toml in it");
        }
        if (!Files.isDirectory(dir)) {
            throw new VisitFolderException(
                    dir.toString(), "is no folder; give the folder that holds visit.toml");
        }
        try {
            return new FolderFiles(dir, dir.toRealPath(), Set.of());
        } catch (IOException e) {
            throw new VisitFolderException(
                    dir.toString(), "cannot be opened: " + Wording.reason(e), e);
        }
    }

    Path dir() {
        return dir;
    }

    /** A file that every visit has. */
    Path own(String name) {
        Path path = dir.resolve(name);
        if (!Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
            throw new VisitFolderException(
                    name, "is missing from " + dir + "; a visit folder holds it");
        }
        String fault = fault(path);
        if (fault != null) {
            throw new VisitFolderException(name, fault);
        }
        return path;
    }

    /** Tells whether a name stays within its folder. */
    static boolean isPlain(String name) {
        return !name.isEmpty()
                && !name.equals(".")
                && !name.equals("..")
                && name.chars().noneMatch(c -> FORBIDDEN.indexOf(c) >= 0);
    }

    /** A file that a key names; complaints name the key. */
    Path named(Keys keys, String key, String name) {
        if (!isPlain(name)) {
            throw keys.wrong(
                    key,
                    Wording.quoted(name)
                            + " is no plain file name; put the file into the folder and give its"
                            + " name alone");
        }
        Path path = dir.resolve(name);
        if (absent.contains(name)) {
            return path;
        }
        if (!Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
            throw keys.wrong(
                    key,
                    "there is no file "
                            + Wording.quoted(name)
                            + " in the folder; put it there or correct the name");
        }
        String fault = fault(path);
        if (fault != null) {
            throw keys.wrong(key, Wording.quoted(name) + " " + fault);
        }
        return path;
    }

    private String fault(Path path) {
        try {
            if (!path.toRealPath().startsWith(realDir)) {
                return "is a link that leaves the folder; put the file itself there";
            }
        } catch (IOException e) {
            return "cannot be opened: " + Wording.reason(e);
        }
        if (!Files.isRegularFile(path)) {
            return "is not a file of its own; put a regular file there";
        }
        return Files.isReadable(path) ? null : "cannot be read: no permission";
    }

    /** Regular files that stand in the folder itself, links and hidden ones left out, by name. */
    List<String> loose() {
        List<String> names = new ArrayList<>();
        try (Stream<Path> entries = Files.list(dir)) {
            for (Path entry : (Iterable<Path>) entries::iterator) {
                String name = entry.getFileName().toString();
                if (!name.startsWith(".")
                        && Files.isRegularFile(entry, LinkOption.NOFOLLOW_LINKS)) {
                    names.add(name);
                }
            }
        } catch (IOException e) {
            throw new VisitFolderException(
                    dir.toString(), "cannot be listed: " + Wording.reason(e), e);
        }
        names.sort(null);
        return names;
    }
}
