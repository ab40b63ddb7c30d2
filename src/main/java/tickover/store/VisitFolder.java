package tickover.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import tickover.drive.Vehicle;

/**
 * Visit folders: {@code vehicle.toml}, {@code visit.toml} and the recordings that they name. {@code
 * docs/visit-folder.md} describes the form.
 */
public final class VisitFolder {
    static final String VEHICLE_FILE = "vehicle.toml";
    static final String VISIT_FILE = "visit.toml";

    private VisitFolder() {}

    /**
     * Reads a visit and checks every byte of what it names. Writes nothing.
     *
     * @param dir the folder
     * @return the visit, whose captures load their samples from the folder on demand
     * @throws VisitFolderException if anything in it is not as it should be
     */
    public static Visit read(Path dir) {
        FolderFiles folder = FolderFiles.of(dir);
        VisitToml.Parsed parsed = parse(folder);
        checkAll(parsed.captures());
        Set<String> named = new LinkedHashSet<>(List.of(VEHICLE_FILE, VISIT_FILE));
        for (VisitCapture capture : parsed.captures()) {
            named.add(capture.file());
            capture.speedFile().ifPresent(named::add);
        }
        Set<String> all = new LinkedHashSet<>(named);
        all.addAll(folder.loose());
        List<KeptFile> files =
                all.parallelStream()
                        .map(name -> KeptFile.of(dir.resolve(name), named.contains(name)))
                        .toList();
        UUID ownId = parsed.facts().ownId();
        UUID id = ownId == null ? KeptFile.contentId(files) : ownId;
        return new Visit(parsed.facts(), parsed.captures(), id, dir, files);
    }

    /** Checks captures side by side; what is thrown is the first one's fault in their order. */
    private static void checkAll(List<VisitCapture> captures) {
        List<RuntimeException> faults =
                captures.parallelStream().flatMap(c -> fault(c).stream()).toList();
        if (!faults.isEmpty()) {
            throw faults.get(0);
        }
    }

    private static Optional<RuntimeException> fault(VisitCapture capture) {
        try {
            capture.check();
            return Optional.empty();
        } catch (VisitFolderException | StoreException e) {
            return Optional.of(e);
        }
    }

    /**
     * Reads a visit whose files were checked when they were taken in.
     *
     * @param removed files that were removed by rule; loading their captures fails
     */
    static Visit readKept(Path dir, UUID id, List<KeptFile> files, Removals.Of removed) {
        VisitToml.Parsed parsed = parse(FolderFiles.of(dir).without(removed.names()));
        List<VisitCapture> captures =
                parsed.captures().stream()
                        .map(
                                c ->
                                        removed.names().contains(c.file())
                                                ? c.removed(removed.sentence())
                                                : c)
                        .toList();
        return new Visit(parsed.facts(), captures, id, dir, files);
    }

    private static VisitToml.Parsed parse(FolderFiles folder) {
        Vehicle vehicle = VehicleToml.read(folder.own(VEHICLE_FILE));
        return VisitToml.read(folder, folder.own(VISIT_FILE), vehicle);
    }

    /**
     * Reads a vehicle alone.
     *
     * @param file a {@code vehicle.toml}, under any name
     * @return the vehicle
     * @throws VisitFolderException if anything in it is not as it should be
     */
    public static Vehicle readVehicle(Path file) {
        return VehicleToml.read(file);
    }

    /**
     * Reads a vehicle from its description.
     *
     * @param text as {@link #vehicleText} gives it
     * @return the vehicle
     * @throws VisitFolderException if the text describes none
     */
    public static Vehicle vehicleOf(String text) {
        return VehicleToml.read(VEHICLE_FILE, Objects.requireNonNull(text, "text"));
    }

    /**
     * Describes a vehicle as {@code vehicle.toml} does.
     *
     * @param vehicle the vehicle
     * @return the file's text
     */
    public static String vehicleText(Vehicle vehicle) {
        return FolderWriter.vehicle(vehicle).toString();
    }

    /**
     * Writes a new visit folder and reads it back: all of it, or nothing.
     *
     * @param draft what to write
     * @param dir the folder; made if it does not exist, else it has to be empty
     * @return the visit as it now stands in the folder
     * @throws IllegalArgumentException if the folder form cannot hold the draft
     * @throws StoreException if the folder is not empty or cannot be written
     */
    public static Visit write(VisitDraft draft, Path dir) {
        return writeWhole(dir, part -> draft);
    }

    /**
     * Writes a new visit folder of which some files are made by the caller: all of it, or nothing.
     * Everything is written to a folder beside it, which gets its name when it is whole and has
     * been read back. What an earlier attempt left there is removed.
     *
     * @param dir the folder; made if it does not exist, else it has to be empty
     * @param maker may write files to the folder that it is given, and says what else to write
     * @return the visit as it now stands in the folder
     * @throws IllegalArgumentException if the folder form cannot hold the draft
     * @throws StoreException if the folder is not empty or cannot be written
     */
    public static Visit writeWhole(Path dir, Function<Path, VisitDraft> maker) {
        Path whole = dir.toAbsolutePath().normalize();
        Path part = whole.resolveSibling("." + whole.getFileName() + ".part");
        boolean done = false;
        try {
            NewFolder.requireFree(dir);
            FolderRecordings.delete(part);
            Files.createDirectories(part);
            FolderWriter.write(maker.apply(part), part);
            read(part);
            Files.deleteIfExists(whole);
            Files.move(part, whole, StandardCopyOption.ATOMIC_MOVE);
            done = true;
        } catch (IOException e) {
            throw StoreException.of(e, dir);
        } catch (UncheckedIOException e) {
            throw StoreException.of(e.getCause(), dir);
        } finally {
            if (!done) {
                forget(part);
            }
        }
        return read(dir);
    }

    private static void forget(Path part) {
        try {
            FolderRecordings.delete(part);
        } catch (IOException e) {
            // The failure that led here says more; the next attempt tries again.
        }
    }
}
