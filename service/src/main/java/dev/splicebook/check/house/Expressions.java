package dev.splicebook.check.house;

import com.google.common.collect.ImmutableCollection;
import com.google.common.collect.ImmutableMap;
import dev.cel.checker.CelStandardDeclarations;
import dev.cel.checker.CelStandardDeclarations.StandardFunction;
import dev.cel.common.CelAbstractSyntaxTree;
import dev.cel.common.CelFunctionDecl;
import dev.cel.common.CelIssue;
import dev.cel.common.CelOptions;
import dev.cel.common.CelOverloadDecl;
import dev.cel.common.CelValidationException;
import dev.cel.common.CelValidationResult;
import dev.cel.common.ast.CelExpr;
import dev.cel.common.ast.CelExpr.CelCall;
import dev.cel.common.ast.CelExpr.ExprKind.Kind;
import dev.cel.common.navigation.CelNavigableAst;
import dev.cel.common.navigation.CelNavigableExpr;
import dev.cel.common.types.CelType;
import dev.cel.common.types.CelTypeProvider;
import dev.cel.common.types.ListType;
import dev.cel.common.types.MapType;
import dev.cel.common.types.SimpleType;
import dev.cel.common.types.StructType;
import dev.cel.common.types.StructTypeReference;
import dev.cel.compiler.CelCompiler;
import dev.cel.compiler.CelCompilerBuilder;
import dev.cel.compiler.CelCompilerFactory;
import dev.cel.parser.CelStandardMacro;
import dev.cel.runtime.CelEvaluationException;
import dev.cel.runtime.CelFunctionBinding;
import dev.cel.runtime.CelRuntime;
import dev.cel.runtime.CelRuntimeFactory;
import dev.cel.runtime.CelVariableResolver;
import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.hookup.FactKind;
import dev.splicebook.hookup.FactKind.FactType;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Compiles expressions in CEL, the Common Expression Language, over the {@link FactKind kinds} of facts. What could cost
 * more than it looks is refused: growing texts and lists, nested loops beyond two, and regular expressions that repeat by
 * number or are not written out.
 */
final class Expressions {

    private static final int MOST_NESTED_LOOPS = 2;
    private static final int MOST_ITERATIONS = 100_000;
    private static final int LONGEST_PATTERN = 100;
    private static final int LONGEST_TOLD = 300;
    private static final Pattern WHERE = Pattern.compile("^evaluation error( at [^ ]*)?: ");

    /** What turns texts and lists into longer ones; loops over lists make theirs by the last. */
    private static final Set<String> GROWING = Set.of("add_string", "add_bytes", "add_list");

    private static final String ADD_LIST = "add_list";

    private static final CelOptions OPTIONS = CelOptions.current()
            .enableHeterogeneousNumericComparisons(true)
            .enableHiddenAccumulatorVar(true)
            .maxExpressionCodePointSize(HouseRule.LONGEST)
            .maxParseRecursionDepth(32)
            .maxParseErrorRecoveryLimit(5)
            .comprehensionMaxIterations(MOST_ITERATIONS)
            .maxRegexProgramSize(10 * LONGEST_PATTERN)
            .build();

    private static final CelRuntime RUNTIME = CelRuntimeFactory.plannerRuntimeBuilder()
            .setOptions(OPTIONS)
            .addFunctionBindings(CelFunctionBinding.fromOverloads(
                    "sum", CelFunctionBinding.from("sum_list", List.class, Expressions::sum)))
            .build();

    private static final Map<Subject, CelCompiler> COMPILERS = compilers();

    private Expressions() {}

    /** An expression that is ready to run. */
    record Expression(CelRuntime.Program program, CelType type) {

        /** @throws CelEvaluationException what the expression itself ends with */
        Object evaluate(CelVariableResolver variables, Evaluation evaluation) throws CelEvaluationException {
            return program.trace(variables, (expression, value) -> evaluation.step());
        }
    }

    /**
     * Compiles an expression.
     *
     * @param what it is, as the subject of a sentence
     * @throws InvalidValueException saying what is wrong with it, and where
     */
    static Expression compile(Subject each, String expression, String what) {
        CelValidationResult result = Objects.requireNonNull(COMPILERS.get(each)).compile(expression);
        try {
            CelAbstractSyntaxTree tree = result.getAst();
            refuseCostly(tree, what);
            return new Expression(RUNTIME.createProgram(tree), tree.getResultType());
        } catch (CelValidationException invalid) {
            CelIssue first = invalid.getErrors().get(0);
            throw refused(what, "at column " + (first.getSourceLocation().getColumn() + 1) + ": " + first.getMessage());
        } catch (CelEvaluationException invalid) {
            throw refused(what, told(invalid));
        }
    }

    /** What went wrong, in words that stand behind a colon. */
    static String told(CelEvaluationException failure) {
        String message = String.valueOf(failure.getMessage());
        return shortened(WHERE.matcher(message).replaceFirst(""));
    }

    private static String shortened(String text) {
        String line = text.replaceAll("\\s+", " ").strip();
        return line.length() > LONGEST_TOLD ? line.substring(0, LONGEST_TOLD) + "…" : line;
    }

    private static InvalidValueException refused(String what, String why) {
        return new InvalidValueException(
                "bad-expression", what + " cannot be used as an expression, " + shortened(why));
    }

    private static void refuseCostly(CelAbstractSyntaxTree tree, String what) {
        for (CelNavigableExpr node : (Iterable<CelNavigableExpr>)
                CelNavigableAst.fromAst(tree).getRoot().allNodes()::iterator) {
            CelExpr expression = node.expr();
            if (expression.getKind() == Kind.STRUCT) {
                throw refused(what, "as it makes a " + expression.struct().messageName() + " of its own");
            }
            if (expression.getKind() == Kind.COMPREHENSION && nesting(node) > MOST_NESTED_LOOPS) {
                throw refused(what, "as it nests more than " + MOST_NESTED_LOOPS + " loops");
            }
            if (expression.getKind() == Kind.CALL) {
                refuseCostlyCall(expression.call(), what);
                if (grows(tree, expression)) {
                    throw refused(what, "as it adds lists");
                }
            }
        }
    }

    private static void refuseCostlyCall(CelCall call, String what) {
        if (!call.function().equals("matches")) {
            return;
        }
        CelExpr pattern = call.args().get(call.args().size() - 1);
        if (pattern.getKind() != Kind.CONSTANT) {
            throw refused(what, "as it matches a pattern that is not written out");
        }
        String text = pattern.constant().stringValue();
        if (text.length() > LONGEST_PATTERN || text.contains("{")) {
            throw refused(
                    what,
                    "as it matches a pattern of more than " + LONGEST_PATTERN
                            + " characters or with a number of repeats");
        }
        try {
            com.google.re2j.Pattern.compile(text);
        } catch (com.google.re2j.PatternSyntaxException invalid) {
            throw refused(what, "as its pattern is none: " + invalid.getMessage());
        }
    }

    /** Whether it adds lists otherwise than a loop does to its own result, which no expression can name. */
    private static boolean grows(CelAbstractSyntaxTree tree, CelExpr expression) {
        boolean addsLists = tree.getReference(expression.id())
                .map(reference -> reference.overloadIds().contains(ADD_LIST))
                .orElse(false);
        if (!addsLists) {
            return false;
        }
        CelExpr first = expression.call().args().get(0);
        return first.getKind() != Kind.IDENT || !first.ident().name().startsWith("@");
    }

    private static int nesting(CelNavigableExpr loop) {
        int nesting = 1;
        Optional<CelNavigableExpr> above = loop.parent();
        while (above.isPresent()) {
            if (above.get().getKind() == Kind.COMPREHENSION) {
                nesting++;
            }
            above = above.get().parent();
        }
        return nesting;
    }

    private static double sum(List<?> figures) {
        double sum = 0;
        for (Object figure : figures) {
            sum += ((Number) figure).doubleValue();
        }
        return sum;
    }

    private static Map<Subject, CelCompiler> compilers() {
        ImmutableMap<String, CelType> types = Arrays.stream(FactKind.values())
                .collect(ImmutableMap.toImmutableMap(FactKind::toString, Expressions::typeOf));
        CelTypeProvider provider = new CelTypeProvider() {
            @Override
            public ImmutableCollection<CelType> types() {
                return types.values();
            }

            @Override
            public Optional<CelType> findType(String name) {
                return Optional.ofNullable(types.get(name));
            }
        };
        CelStandardDeclarations declarations = CelStandardDeclarations.newBuilder()
                .filterFunctions((function, overload) -> function != StandardFunction.ADD
                        || !GROWING.contains(overload.celOverloadDecl().overloadId())
                        || overload.celOverloadDecl().overloadId().equals(ADD_LIST))
                .build();
        Map<Subject, CelCompiler> compilers = new EnumMap<>(Subject.class);
        for (Subject each : Subject.values()) {
            CelCompilerBuilder builder = CelCompilerFactory.standardCelCompilerBuilder()
                    .setOptions(OPTIONS)
                    .setStandardEnvironmentEnabled(false)
                    .setStandardDeclarations(declarations)
                    .setStandardMacros(CelStandardMacro.STANDARD_MACROS)
                    .setTypeProvider(provider)
                    .addFunctionDeclarations(CelFunctionDecl.newFunctionDeclaration(
                            "sum",
                            CelOverloadDecl.newGlobalOverload(
                                    "sum_list", SimpleType.DOUBLE, ListType.create(SimpleType.DOUBLE))))
                    .addVar("it", StructTypeReference.create(each.kind().toString()));
            FactKind.HOOKUP.fields().forEach((name, type) -> builder.addVar(name, celType(type)));
            compilers.put(each, builder.build());
        }
        return compilers;
    }

    private static CelType typeOf(FactKind kind) {
        ImmutableMap<String, CelType> fields = kind.fields().entrySet().stream()
                .collect(ImmutableMap.toImmutableMap(Map.Entry::getKey, field -> celType(field.getValue())));
        return StructType.create(kind.toString(), fields.keySet(), name -> Optional.ofNullable(fields.get(name)));
    }

    private static CelType celType(FactType type) {
        return switch (type.form()) {
            case TEXT -> SimpleType.STRING;
            case NUMBER -> SimpleType.DOUBLE;
            case TRUTH -> SimpleType.BOOL;
            case TEXTS -> ListType.create(SimpleType.STRING);
            case SETTINGS -> MapType.create(SimpleType.STRING, SimpleType.STRING);
            case ONE -> StructTypeReference.create(type.kind().toString());
            case MANY -> ListType.create(StructTypeReference.create(type.kind().toString()));
        };
    }
}
