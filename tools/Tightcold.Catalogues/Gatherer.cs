using System.Collections.Immutable;
using System.Text;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Operations;

namespace Tightcold.Catalogues;

/// <summary>A message as the code has it.</summary>
/// <param name="Places">What stands in each place, as code; for the translator.</param>
public sealed record Gathered(string? Context, string Id, string? Plural, string File, ImmutableArray<string> Places);

/// <summary>Words that reach a person and that no catalogue can know: made of pieces, or from where nothing says that
/// they are shown.</summary>
public sealed record Loose(string File, int Line, string Code);

/// <summary>Reads a room's code and finds every message: what is made a phrase, what is said, and every constant that
/// goes to a place marked as shown to people.</summary>
public sealed class Gatherer(Func<string, string> shortName)
{
    private readonly List<Gathered> found = [];
    private readonly List<Loose> loose = [];
    private bool asks;

    public IReadOnlyList<Gathered> Found => found;
    public IReadOnlyList<Loose> LooseEnds => loose;

    /// <summary>Messages of a file that is no code.</summary>
    public void Add(string file, IEnumerable<string> texts) =>
        found.AddRange(texts.Select(text => new Gathered(null, text, null, file, [])));

    public void Read(Compilation room)
    {
        ArgumentNullException.ThrowIfNull(room);
        foreach (var tree in room.SyntaxTrees)
        {
            var model = room.GetSemanticModel(tree);
            foreach (var node in tree.GetRoot().DescendantNodes())
                Look(node, model);
        }
    }

    private void Look(SyntaxNode node, SemanticModel model)
    {
        switch (node)
        {
            case InvocationExpressionSyntax { ArgumentList.Arguments.Count: 3 } many
                when model.GetSymbolInfo(many).Symbol is IMethodSymbol { Name: "Many" } method
                    && IsHandler(method.Parameters[^1].Type):
                Plural(many, model);
                break;
            case BaseArgumentListSyntax or InitializerExpressionSyntax or AttributeArgumentListSyntax:
                break;
            case ExpressionSyntax expression
                when IsHandler(model.GetTypeInfo(expression).ConvertedType)
                    && expression is InterpolatedStringExpressionSyntax or BinaryExpressionSyntax
                    && IsHandler(model.GetTypeInfo(expression).ConvertedType)
                    && !InPlural(expression, model)
                    && !(
                        expression.Parent is BinaryExpressionSyntax above
                        && IsHandler(model.GetTypeInfo(above).ConvertedType)
                    ):
                Message(expression, model);
                break;
        }
        switch (node)
        {
            case InvocationExpressionSyntax
            or BaseObjectCreationExpressionSyntax
            or ConstructorInitializerSyntax
            or PrimaryConstructorBaseTypeSyntax:
                Arguments(node, model);
                break;
            case AttributeSyntax { ArgumentList.Arguments: var given } attribute
                when model.GetTypeInfo(attribute).Type?.Name == "DescriptionAttribute":
                foreach (var one in given)
                    Leaves(one.Expression, null, model);
                break;
            case AssignmentExpressionSyntax assignment
                when model.GetSymbolInfo(assignment.Left).Symbol is { } target && Said(target) is ({ } _, var context):
                Leaves(assignment.Right, context, model);
                break;
            case PropertyDeclarationSyntax property
                when model.GetDeclaredSymbol(property) is { } symbol && Said(symbol) is ({ } _, var context):
                if (property.Initializer is { } initial)
                    Leaves(initial.Value, context, model);
                Body(property.ExpressionBody, property, context, model);
                break;
            case MethodDeclarationSyntax method
                when model.GetDeclaredSymbol(method) is { } symbol && Said(symbol) is ({ } _, var context):
                Body(method.ExpressionBody, method, context, model);
                break;
            case VariableDeclaratorSyntax { Initializer: { } value } variable
                when model.GetDeclaredSymbol(variable) is IFieldSymbol field && Said(field) is ({ } _, var context):
                Leaves(value.Value, context, model);
                break;
        }
        // A string that becomes a phrase by itself.
        if (
            node is ExpressionSyntax made
            && model.GetTypeInfo(made) is { Type.SpecialType: SpecialType.System_String, ConvertedType.Name: "Phrase" }
        )
            Leaves(made, null, model);
    }

    private void Body(ArrowExpressionClauseSyntax? arrow, SyntaxNode member, string? context, SemanticModel model)
    {
        if (arrow is not null)
            Leaves(arrow.Expression, context, model);
        foreach (
            var given in member
                .DescendantNodes(inner => inner is not (LambdaExpressionSyntax or LocalFunctionStatementSyntax))
                .OfType<ReturnStatementSyntax>()
        )
            if (given.Expression is { } expression)
                Leaves(expression, context, model);
    }

    private void Arguments(SyntaxNode node, SemanticModel model)
    {
        var given = model.GetOperation(node) switch
        {
            IInvocationOperation call => call.Arguments,
            IObjectCreationOperation made => made.Arguments,
            _ => [],
        };
        // The context of a choice is the name of its field, which is given beside it.
        string? Here(string? context) =>
            context != "@0"
                ? context
                : given.Select(one => model.GetConstantValue(one.Value.Syntax).Value).FirstOrDefault() as string;
        // To say a word that is not written here is to look it up; where it is written it is marked.
        asks =
            model.GetSymbolInfo(node).Symbol
                is IMethodSymbol
                {
                    ContainingType.Name: "Say" or "Phrase",
                    Name: "It" or "Words" or "Within" or "Says"
                };
        foreach (var argument in given)
            if (
                argument is { IsImplicit: false, Parameter: { } parameter, Value.Syntax: ExpressionSyntax value }
                && Marked(parameter) is ({ } _, var context)
            )
                Leaves(value, Here(context), model);
            else if (
                argument is { ArgumentKind: ArgumentKind.ParamArray, Parameter: { } many }
                && Marked(many) is ({ } _, var each)
                && argument.Value is IArrayCreationOperation { Initializer.ElementValues: var values }
            )
                foreach (var one in values)
                    if (one.Syntax is ExpressionSyntax element)
                        Leaves(element, Here(each), model);
        asks = false;
    }

    private void Plural(InvocationExpressionSyntax many, SemanticModel model)
    {
        var (one, more) = (many.ArgumentList.Arguments[1].Expression, many.ArgumentList.Arguments[2].Expression);
        var (first, places) = Template(one, model);
        var (second, others) = Template(more, model);
        found.Add(new(null, first, second, FileOf(many), places.Length >= others.Length ? places : others));
    }

    private static bool InPlural(SyntaxNode node, SemanticModel model) =>
        node.Parent
            is ArgumentSyntax { Parent.Parent: InvocationExpressionSyntax { ArgumentList.Arguments.Count: 3 } call }
        && model.GetSymbolInfo(call).Symbol is IMethodSymbol { Name: "Many" } method
        && IsHandler(method.Parameters[^1].Type);

    private void Message(ExpressionSyntax expression, SemanticModel model)
    {
        var (text, places) = Template(expression, model);
        // Nothing but a place is no message.
        if (text.Length > 0 && text != "{0}")
            found.Add(new(null, text, null, FileOf(expression), places));
    }

    private (string Text, ImmutableArray<string> Places) Template(ExpressionSyntax expression, SemanticModel model)
    {
        var text = new StringBuilder();
        var places = ImmutableArray.CreateBuilder<string>();
        Add(expression);
        return (text.ToString(), places.DrainToImmutable());

        void Add(ExpressionSyntax part)
        {
            switch (part)
            {
                case ParenthesizedExpressionSyntax inner:
                    Add(inner.Expression);
                    break;
                case BinaryExpressionSyntax sum:
                    Add(sum.Left);
                    Add(sum.Right);
                    break;
                case InterpolatedStringExpressionSyntax pieces:
                    foreach (var piece in pieces.Contents)
                        if (piece is InterpolatedStringTextSyntax words)
                            text.Append(
                                words
                                    .TextToken.ValueText.Replace("{{", "{", StringComparison.Ordinal)
                                    .Replace("}}", "}", StringComparison.Ordinal)
                            );
                        else if (piece is InterpolationSyntax hole)
                        {
                            text.Append('{').Append(places.Count).Append('}');
                            places.Add(hole.Expression.ToString());
                            if (
                                model.GetTypeInfo(hole.Expression).Type?.SpecialType == SpecialType.System_String
                                && model.GetTypeInfo(expression).ConvertedType?.ContainingType?.Name == "Phrase"
                            )
                                Leaves(hole.Expression, null, model);
                        }
                    break;
                case var constant when model.GetConstantValue(constant).Value is string words:
                    text.Append(words);
                    break;
            }
        }
    }

    /// <summary>Every constant that an expression can come to.</summary>
    private void Leaves(ExpressionSyntax expression, string? context, SemanticModel model, int depth = 0)
    {
        if (model.GetConstantValue(expression) is { HasValue: true } constant)
        {
            if (constant.Value is string { Length: > 0 } text && text.Any(char.IsLetter))
                found.Add(new(context, text, null, FileOf(expression), []));
            return;
        }
        switch (expression)
        {
            case ParenthesizedExpressionSyntax inner:
                Leaves(inner.Expression, context, model, depth);
                return;
            case PostfixUnaryExpressionSyntax inner:
                Leaves(inner.Operand, context, model, depth);
                return;
            case CastExpressionSyntax inner:
                Leaves(inner.Expression, context, model, depth);
                return;
            case ConditionalExpressionSyntax either:
                Leaves(either.WhenTrue, context, model, depth);
                Leaves(either.WhenFalse, context, model, depth);
                return;
            case BinaryExpressionSyntax { RawKind: (int)SyntaxKind.CoalesceExpression } either:
                Leaves(either.Left, context, model, depth);
                Leaves(either.Right, context, model, depth);
                return;
            case SwitchExpressionSyntax one:
                foreach (var arm in one.Arms)
                    Leaves(arm.Expression, context, model, depth);
                return;
            case CollectionExpressionSyntax all:
                foreach (var element in all.Elements.OfType<ExpressionElementSyntax>())
                    Leaves(element.Expression, context, model, depth);
                return;
            case ArrayCreationExpressionSyntax { Initializer.Expressions: var all }:
                foreach (var element in all)
                    Leaves(element, context, model, depth);
                return;
            case ImplicitArrayCreationExpressionSyntax { Initializer.Expressions: var all }:
                foreach (var element in all)
                    Leaves(element, context, model, depth);
                return;
            case TupleExpressionSyntax pair:
                // Of a key and its label the label is read.
                Leaves(pair.Arguments[^1].Expression, context, model, depth);
                return;
            case ThrowExpressionSyntax or LiteralExpressionSyntax:
                return;
        }
        if (model.GetTypeInfo(expression).Type is { Name: "Phrase" })
            return;
        var symbol = model.GetSymbolInfo(expression).Symbol;
        // A number or an id written out is no words.
        if (symbol is IMethodSymbol { Name: "ToString", ContainingType.IsValueType: true })
            return;
        if (symbol is ILocalSymbol local && depth < 4)
        {
            if (
                local.DeclaringSyntaxReferences is [var declared, ..]
                && declared.GetSyntax() is VariableDeclaratorSyntax { Initializer.Value: { } value }
            )
                Leaves(value, context, model, depth + 1);
            return;
        }
        if (symbol is IParameterSymbol parameter && Marked(parameter) is not null)
            return;
        if (symbol is not null && Said(symbol) is not null)
            return;
        if (symbol is IMethodSymbol { ContainingType.Name: "Say" })
            return;
        if (asks)
            return;
        var place = expression.GetLocation().GetMappedLineSpan();
        loose.Add(new(FileOf(expression), place.StartLinePosition.Line + 1, expression.ToString()));
    }

    private string FileOf(SyntaxNode node) => shortName(node.GetLocation().GetMappedLineSpan().Path);

    private static bool IsHandler(ITypeSymbol? type) =>
        type is { Name: "Handler", ContainingType.Name: "Phrase" or "Say" };

    /// <summary>Whether a member is marked; a property of a record also by the parameter it is made from.</summary>
    private static (AttributeData Mark, string? Context)? Said(ISymbol symbol)
    {
        for (var one = symbol; one is not null; one = Overridden(one))
            if (Marked(one) is { } mark)
                return mark;
        if (symbol is IMethodSymbol method)
            foreach (var mark in method.GetReturnTypeAttributes())
                if (mark.AttributeClass?.Name == "SaidAttribute")
                    return (mark, mark.ConstructorArguments is [{ Value: var context }] ? context as string : null);
        if (symbol is IPropertySymbol property)
            foreach (var made in property.ContainingType.InstanceConstructors)
                if (
                    made.Parameters.FirstOrDefault(given => given.Name == property.Name) is { } given
                    && Marked(given) is { } mark
                )
                    return mark;
        return null;
    }

    private static ISymbol? Overridden(ISymbol symbol) =>
        symbol switch
        {
            IPropertySymbol property => property.OverriddenProperty,
            IMethodSymbol method => method.OverriddenMethod,
            _ => null,
        };

    private static (AttributeData Mark, string? Context)? Marked(ISymbol symbol) =>
        symbol.GetAttributes().FirstOrDefault(mark => mark.AttributeClass?.Name == "SaidAttribute") is { } found
            ? (found, found.ConstructorArguments is [{ Value: var context }] ? context as string : null)
            : null;
}
