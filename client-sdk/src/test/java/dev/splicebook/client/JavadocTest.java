package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.source.doctree.DocCommentTree;
import com.sun.source.doctree.DocTree;
import com.sun.source.doctree.ParamTree;
import com.sun.source.util.DocTrees;
import com.sun.source.util.JavacTask;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.lang.model.element.Element;
import javax.lang.model.element.ElementKind;
import javax.lang.model.element.ExecutableElement;
import javax.lang.model.element.Modifier;
import javax.lang.model.element.NestingKind;
import javax.lang.model.element.TypeElement;
import javax.lang.model.util.ElementFilter;
import javax.lang.model.util.Elements;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.jspecify.annotations.NullMarked;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Everything that a caller sees says what it is. The compiler checks the form of comments, and not that there are any. */
class JavadocTest {

    private static final Set<String> OF_ANY_OBJECT = Set.of("equals", "hashCode", "toString");
    private static final Set<String> OF_ANY_ENUM = Set.of("values", "valueOf");
    private static final Path SOURCES = Path.of("src", "main", "java");

    @Test
    void saysOfEverythingPublicWhatItIs() throws IOException {
        List<String> bare = new ArrayList<>();
        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        try (StandardJavaFileManager files = compiler.getStandardFileManager(null, null, null)) {
            JavacTask task = (JavacTask) compiler.getTask(
                    null,
                    files,
                    null,
                    List.of("-proc:none", "-cp", System.getProperty("java.class.path")),
                    null,
                    files.getJavaFileObjectsFromPaths(sources()));
            task.parse();
            Reader reader = new Reader(DocTrees.instance(task), task.getElements(), bare);
            int types = 0;
            for (Element type : task.analyze()) {
                if (type instanceof TypeElement declared && isTopLevel(declared) && isPublic(declared)) {
                    reader.read(declared);
                    types++;
                }
            }
            assertThat(types).isGreaterThan(50);
        }

        assertThat(String.join("\n", bare))
                .as("public elements to be given a Javadoc comment")
                .isEmpty();
    }

    @Test
    void isNullMarked() {
        assertThat(Splicebook.class.getPackage().isAnnotationPresent(NullMarked.class))
                .isTrue();
    }

    private static List<Path> sources() {
        try (Stream<Path> files = Files.walk(SOURCES)) {
            return files.filter(file -> file.toString().endsWith(".java"))
                    .filter(file -> !file.endsWith("module-info.java"))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static boolean isTopLevel(TypeElement type) {
        return type.getNestingKind() == NestingKind.TOP_LEVEL;
    }

    private static boolean isPublic(Element element) {
        return element.getModifiers().contains(Modifier.PUBLIC);
    }

    private record Reader(DocTrees docs, Elements elements, List<String> bare) {

        void read(TypeElement type) {
            @Nullable DocCommentTree comment = comment(type);
            if (comment == null) {
                bare.add(type.toString());
            } else if (type.getKind() == ElementKind.RECORD) {
                Set<String> said = comment.getBlockTags().stream()
                        .filter(tag -> tag.getKind() == DocTree.Kind.PARAM)
                        .map(tag -> ((ParamTree) tag).getName().toString())
                        .collect(Collectors.toSet());
                type.getRecordComponents().stream()
                        .map(component -> component.getSimpleName().toString())
                        .filter(name -> !said.contains(name))
                        .forEach(name -> bare.add(type + ", component " + name));
            }
            for (Element member : type.getEnclosedElements()) {
                if (isPublic(member) && !explainsItself(type, member) && comment(member) == null) {
                    bare.add(type + ", " + member);
                }
            }
            ElementFilter.typesIn(type.getEnclosedElements()).stream()
                    .filter(JavadocTest::isPublic)
                    .forEach(this::read);
        }

        private @Nullable DocCommentTree comment(Element element) {
            @Nullable DocCommentTree comment = docs.getDocCommentTree(element);
            return comment == null || comment.getFirstSentence().isEmpty() ? null : comment;
        }

        /** What the record says of its components, and the JDK of its own methods, need not be said again. */
        private boolean explainsItself(TypeElement type, Element member) {
            if (member.getKind().isClass()
                    || member.getKind().isInterface()
                    || member.getKind() == ElementKind.RECORD_COMPONENT) {
                return true;
            }
            if (type.getKind() == ElementKind.RECORD && member.getKind() == ElementKind.CONSTRUCTOR) {
                return ((ExecutableElement) member).getParameters().size()
                        == type.getRecordComponents().size();
            }
            if (!(member instanceof ExecutableElement method)) {
                return false;
            }
            boolean isAccessor =
                    type.getRecordComponents().stream().anyMatch(component -> method.equals(component.getAccessor()));
            return isAccessor
                    || elements.getOrigin(method) != Elements.Origin.EXPLICIT
                    || (type.getKind() == ElementKind.ENUM
                            && OF_ANY_ENUM.contains(method.getSimpleName().toString()))
                    || (type.getKind() == ElementKind.RECORD
                            && OF_ANY_OBJECT.contains(method.getSimpleName().toString()))
                    || method.getAnnotation(Override.class) != null;
        }
    }
}
